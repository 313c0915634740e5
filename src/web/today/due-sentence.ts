/** The first page's one sentence: how much needs hands, or when the next thing comes. */
import type { DueToday } from "../../api/shop.ts";
import { todayText } from "../text/today.ts";

export function dueSentence({ overdue, today, thisWeek, later }: DueToday): string {
  if (overdue.length > 0 || today.length > 0) return todayText.needs(overdue.length, today.length);
  if (thisWeek.length > 0) return todayText.laterThisWeek(thisWeek.length);
  return todayText.nothingNow(later[0] ?? null);
}
