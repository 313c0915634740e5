/** Under which options a plain table of classes has this scale; null: under none. */
import { type ScaleEnds, scaleEnds, tapeScaleEnds } from "./scale-ends.ts";

const same = (a: ScaleEnds, b: ScaleEnds): boolean => a.best === b.best && a.worst === b.worst;

/** Classes as whole numbers; the best end first. */
export function outgoingScaleFlags(scale: ScaleEnds): string[] | null {
  if (same(scale, tapeScaleEnds)) return [];
  const named = Object.entries(scaleEnds).find(([, ends]) => same(ends, scale));
  return named ? ["--scale", named[0]] : null;
}
