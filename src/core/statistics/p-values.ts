/**
 * The p of several comparisons.
 *
 * Units    none (probabilities)
 * Source   input rules of this project
 * Status   common practice
 */
import { InputError, requireList } from "../input-error.ts";

/** Refuses an empty list and a p outside 0 to 1. */
export function requirePValues(argument: string, value: unknown): asserts value is number[] {
  requireList(argument, value);
  for (const [at, p] of value.entries())
    if (typeof p !== "number" || !(p >= 0 && p <= 1))
      throw new InputError(`${argument}[${at}]`, p, "a share from 0 to 1");
}
