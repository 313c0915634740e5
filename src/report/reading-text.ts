/** What was read of one coupon, in words: as it was written down, with every digit. */
import type { ValueResponse } from "../core/trial/declared-question.ts";

/** "40 to 50 strokes", "not yet at 60 strokes", "by 7 days". */
export function timeText({ left, right }: { left: number; right: number | null }, unit: "days" | "strokes"): string {
  if (right === null) return `not yet at ${left} ${unit}`;
  if (left === right) return `${left} ${unit}`;
  return left === 0 ? `by ${right} ${unit}` : `${left} to ${right} ${unit}`;
}

/** `asked` null: the question that had this name is gone from the plan. */
export function readValueText(value: number, asked: ValueResponse | null): string {
  if (asked?.kind === "binary") return value === 1 ? "yes (good)" : "no (bad)";
  if (asked?.kind === "ordinal") return `class ${value}`;
  const unit = asked?.kind === "area" ? "%" : (asked?.unit ?? "");
  return `${String(value).replace("-", "−")} ${unit}`.trim();
}
