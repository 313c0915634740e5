/** When a finish was worn through, from looks every few strokes. */
import { InputError, requireList, requireNotNegative, requirePositive } from "../input-error.ts";

export type WearCheck = { strokes: number; worn: boolean };

/**
 * The strokes between which the finish was worn through for good.
 *
 * Method   wear.breakthroughInterval
 * Formula  right = first check from which every check is worn; left = the check before it
 * Units    strokes (or drags, or turns)
 * Source   rule of this project: a worn look that does not last is not breakthrough
 * Status   common practice
 * Holds    for one place of one coupon, looked at in ascending order
 * Refuses  no checks; strokes below 0 or not strictly ascending
 */
export function breakthroughInterval({ checks }: { checks: readonly WearCheck[] }): {
  leftStrokes: number;
  rightStrokes: number | null;
  censored: boolean;
} {
  requireList("checks", checks);
  for (const [at, { strokes }] of checks.entries()) {
    requireNotNegative("strokes", strokes);
    if (at > 0 && strokes <= checks[at - 1]!.strokes)
      throw new InputError("strokes", strokes, `more than the ${checks[at - 1]!.strokes} of the look before`);
  }
  const lastCovered = checks.findLastIndex((check) => !check.worn);
  const through = checks[lastCovered + 1];
  return {
    leftStrokes: checks[lastCovered]?.strokes ?? 0,
    rightStrokes: through?.strokes ?? null,
    censored: through === undefined,
  };
}

/**
 * Strokes borne per micrometre of coating.
 *
 * Method   wear.strokesPerMicrometre
 * Formula  (left / t, right / t)
 * Units    strokes and µm in, strokes/µm out; null: no upper limit was seen
 * Source   interval divided by the thickness
 * Status   common practice
 * Holds    between coats of one kind rubbed in one way
 * Refuses  a thickness of 0 or less; a right end before the left
 */
export function strokesPerMicrometre(wear: { leftStrokes: number; rightStrokes: number | null; thicknessUm: number }): {
  lower: number;
  upper: number | null;
} {
  const { leftStrokes, rightStrokes, thicknessUm } = wear;
  requireNotNegative("leftStrokes", leftStrokes);
  requirePositive("thicknessUm", thicknessUm);
  if (rightStrokes === null) return { lower: leftStrokes / thicknessUm, upper: null };
  requireNotNegative("rightStrokes", rightStrokes);
  if (rightStrokes < leftStrokes)
    throw new InputError("rightStrokes", rightStrokes, `at least the left end, ${leftStrokes}`);
  return { lower: leftStrokes / thicknessUm, upper: rightStrokes / thicknessUm };
}
