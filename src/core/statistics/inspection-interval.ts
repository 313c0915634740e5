/**
 * When a coupon first rusted, known only from the looks: the datum of every time method of this room.
 *
 * Units    days, or strokes
 * Source   the half-open interval between two looks, a convention of this project
 * Status   common practice
 */
import { InputError, requireList, requireNotNegative } from "../input-error.ts";

/**
 * Half open: clean at `leftDays`, rust by `rightDays`. `leftDays` 0: rust at the first look. `rightDays` null: clean at the last look.
 * Equal ends: the time is known exactly. Days, or strokes: any one unit of wear.
 */
export type InspectionInterval = { leftDays: number; rightDays: number | null };

/** Refuses an empty list, ends in the wrong order, an exact time of 0, and a right end that was left out. */
export function requireIntervals(argument: string, value: unknown): asserts value is InspectionInterval[] {
  requireList(argument, value);
  for (const [at, one] of value.entries()) {
    const name = `${argument}[${at}]`;
    if (typeof one !== "object" || one === null || !("leftDays" in one) || !("rightDays" in one))
      throw new InputError(name, one, "an interval with leftDays and rightDays (null: still clean)");
    const { leftDays, rightDays } = one;
    requireNotNegative(`${name}.leftDays`, leftDays);
    if (rightDays === null) continue;
    requireNotNegative(`${name}.rightDays`, rightDays);
    if (rightDays < leftDays) throw new InputError(`${name}.rightDays`, rightDays, `not before leftDays ${leftDays}`);
    if (rightDays === 0)
      throw new InputError(`${name}.rightDays`, rightDays, "a time above 0: nothing rusts at time 0");
  }
}

/** The block (rack row, batch, day) of a coupon in a stratified test: a number or a name. */
export function requireBlock(argument: string, block: unknown): asserts block is number | string {
  if (!Number.isFinite(block) && (typeof block !== "string" || block === ""))
    throw new InputError(argument, block, "the block's number or name");
}
