import { InputError } from "../input-error.ts";

/**
 * Refuses what lies outside the range in which a formula holds; both ends are inside.
 *
 * Units    as the caller's argument
 * Source   the ranges stand with the methods that name them
 * Status   common practice
 */
export function requireBetween(
  argument: string,
  value: unknown,
  { least, most, because }: { least: number; most: number; because: string },
): asserts value is number {
  if (typeof value !== "number" || !(value >= least && value <= most))
    throw new InputError(argument, value, `a number from ${least} to ${most} (${because})`);
}
