/** What was read of one coupon, in words: as it was written down, with every digit. */
import type { ValueResponse } from "../core/trial/declared-question.ts";
import type { TapeTest, WearTest, Weighing } from "../core/trial/trial-record.ts";

import type { WearMotion } from "../core/trial/wear-conditions.ts";

/** "40 to 50 strokes", "not yet at 60 strokes", "by 7 days". */
export function timeText({ left, right }: { left: number; right: number | null }, unit: "days" | WearMotion): string {
  if (right === null) return `not yet at ${left} ${unit}`;
  if (left === right) return `${left} ${unit}`;
  return left === 0 ? `by ${right} ${unit}` : `${left} to ${right} ${unit}`;
}

/** "40 to 50 strokes, felt pad, P1000, 500 g, by jig; 12 mg worn off". */
export function wearText({ leftStrokes: left, rightStrokes: right, conditions, massLostMg, again }: WearTest): string {
  const motion = conditions?.motion ?? "strokes";
  const rubbed = conditions
    ? [
        conditions.medium,
        conditions.grit,
        conditions.loadG === null ? null : `${conditions.loadG} g`,
        conditions.perMinute === null ? null : `${conditions.perMinute} per minute`,
        conditions.by === null ? null : `by ${conditions.by}`,
      ].filter((word) => word !== null && word !== "")
    : [];
  const lost = massLostMg === undefined ? "" : `; ${massLostMg} mg worn off`;
  return `${[timeText({ left, right }, motion), ...rubbed].join(", ")}${lost}${again ? " (a further run)" : ""}`;
}

/** `asked` null: the question that had this name is gone from the plan. */
export function readValueText(value: number, asked: ValueResponse | null): string {
  if (asked?.kind === "binary") return value === 1 ? "yes (good)" : "no (bad)";
  if (asked?.kind === "ordinal") return `class ${value}`;
  const unit = asked?.kind === "area" ? "%" : (asked?.unit ?? "");
  return `${String(value).replace("-", "−")} ${unit}`.trim();
}

/** "class 2B, 20.7 % by photographs (the eye: 3B), parted within the coating, by comparison only". */
export function tapeText({ tapeClass, details }: TapeTest): string {
  if (!details) return `class ${tapeClass}`;
  const { photo, counts, eyeClass, parted, tape } = details;
  const other = counts === "photo" ? ` (the eye: ${eyeClass})` : ` by eye (photographs: ${photo?.tapeClass})`;
  return [
    photo === null
      ? `class ${tapeClass}`
      : `class ${tapeClass}${counts === "photo" ? `, ${photo.removedPercent.toFixed(1)} % by photographs` : ""}${other}`,
    ...(parted === null || parted === "not seen" ? [] : [`parted: ${parted}`]),
    ...(tape.qualified ? [] : ["by comparison only"]),
  ].join(", ");
}

/** "bare 87.43 g (balance ±10 mg), together with 4, 7". */
export function weighingText({ state, massG, balanceMg, with: others }: Weighing): string {
  const together = others.length === 0 ? "" : `, together with ${others.join(", ")}`;
  return `${state} ${massG} g (balance to ${balanceMg} mg)${together}`;
}
