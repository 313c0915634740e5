/** What a plan is offered to start from. Offered, never silently applied: the user takes it or types something else. */
import { InputError } from "../input-error.ts";
import type { DeclaredResponse } from "./trial-record.ts";

/** Smallest difference that usually matters: a factor for time and area, classes for tape. Common practice. */
export const offeredMargins: Readonly<Record<DeclaredResponse, number>> = {
  "time to first rust": 1.5,
  "rusted area": 2,
  "tape class": 1,
};

/** Days of the first looks. What rusts within the first week can only be told apart by looking within it. */
const firstDays = [1, 2, 4, 7, 10, 14];
const weekly = 7;
/** From this day on every second week is enough. */
const thinnerFrom = 12 * 7;

/** Days from putting out, dense at first and thinning out, up to `lastDay`. */
export function offeredLookDays(lastDay: number): number[] {
  if (!(lastDay >= 1 && lastDay <= 20000)) throw new InputError("lastDay", lastDay, "a number of days from 1 to 20000");
  const days = [...firstDays];
  for (let day = 14 + weekly; day <= lastDay; day += day < thinnerFrom ? weekly : 2 * weekly) days.push(day);
  return days.filter((day) => day <= lastDay);
}
