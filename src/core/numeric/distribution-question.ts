/**
 * What may be asked of a distribution, and its answer by the functions of that distribution.
 *
 * Units    none (probabilities)
 * Source   the form of the reference cases
 * Status   common practice
 */
import { InputError, requireFinite, requireOneOf } from "../input-error.ts";

/** The side of a point that a probability is counted on. */
export type Tail = "lower" | "upper";
const tails = ["lower", "upper"] as const;

export type DistributionQuestion =
  | { of: "cdf" | "sf" | "logCdf" | "logSf"; x: number }
  | { of: "quantile"; p: number; tail?: Tail };
const questions = ["cdf", "sf", "logCdf", "logSf", "quantile"] as const;

/** The five functions of one distribution, its parameters already filled in. */
export type DistributionFunctions = {
  cdf: (x: number) => number;
  sf: (x: number) => number;
  logCdf: (x: number) => number;
  logSf: (x: number) => number;
  quantile: (p: number, tail: Tail) => number;
};

/** Refuses an answer that is not finite: the logarithm of 0, a quantile at the end of an open range. */
export function answer(question: DistributionQuestion, functions: DistributionFunctions): { value: number } {
  requireOneOf("of", question.of, questions);
  if (question.of === "quantile") {
    const tail = question.tail ?? "lower";
    requireOneOf("tail", tail, tails);
    return { value: functions.quantile(question.p, tail) };
  }
  requireFinite("x", question.x);
  const value = functions[question.of](question.x);
  if (!Number.isFinite(value)) throw new InputError("x", question.x, "a point where the logarithm is finite");
  return { value };
}

/** A probability from 0 to 1; the ends in `infiniteAt` (as lower tails) have no finite quantile and are refused. */
export function requireQuantileOf(p: unknown, tail: Tail, infiniteAt: readonly (0 | 1)[]): asserts p is number {
  if (typeof p !== "number" || !(p >= 0 && p <= 1)) throw new InputError("p", p, "a probability from 0 to 1");
  const lower = tail === "lower" ? p : 1 - p;
  if ((p === 0 || p === 1) && infiniteAt.some((end) => end === lower))
    throw new InputError("p", p, "a probability whose quantile is finite");
}

/** Refuses a quantile beyond the largest number, as small degrees of freedom and far tails have. */
export function finiteQuantile(p: number, quantile: number): number {
  if (!Number.isFinite(quantile)) throw new InputError("p", p, "a probability whose quantile is a finite number");
  return quantile;
}
