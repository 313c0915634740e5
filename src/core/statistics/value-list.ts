/**
 * The datum of the rank and mean methods: a list of measured values.
 *
 * Units    those of the values
 * Source   input rules of this project
 * Status   common practice
 */
import { requireFinite, requireList } from "../input-error.ts";

/** Refuses an empty list (or one shorter than `atLeast`) and values that are not finite, by their place in the list. */
export function requireValues(argument: string, value: unknown, atLeast = 1): asserts value is number[] {
  requireList(argument, value, atLeast);
  for (const [at, one] of value.entries()) requireFinite(`${argument}[${at}]`, one);
}
