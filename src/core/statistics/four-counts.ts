/**
 * Successes among trials in two groups.
 *
 * Units    counts
 * Source   input rules of this project
 * Status   common practice
 */
import { InputError, requireWhole } from "../input-error.ts";

export type FourCounts = { successes1: number; trials1: number; successes2: number; trials2: number };

export function requireFourCounts({ successes1, trials1, successes2, trials2 }: FourCounts): void {
  requireWhole("trials1", trials1, 1);
  requireWhole("trials2", trials2, 1);
  requireWhole("successes1", successes1);
  requireWhole("successes2", successes2);
  if (successes1 > trials1) throw new InputError("successes1", successes1, `at most the trials, ${trials1}`);
  if (successes2 > trials2) throw new InputError("successes2", successes2, `at most the trials, ${trials2}`);
}
