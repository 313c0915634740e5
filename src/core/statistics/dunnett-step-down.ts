/** Several treatments against one control: what has been found no longer weighs on the rest. */
import { controlComparisons } from "./dunnett.ts";
import { dunnettTail } from "./dunnett-tail.ts";

/**
 * Dunnett's comparisons with a control, step down.
 *
 * Method   comparison.dunnettStepDown
 * Formula  |t| downwards, each referred to the largest |T| of the treatments not yet passed; running maximum
 * Units    of the values; shares
 * Source   Dunnett and Tamhane 1991
 * Status   computed
 * Holds    as the single step, but stronger; no interval belongs to it
 * Refuses  no treatments, an empty group, no degrees of freedom, no scatter
 */
export function dunnettStepDown({ control, treatments }: { control: number[]; treatments: number[][] }) {
  const { loadings, df, t } = controlComparisons(control, treatments);
  const order = [...t.keys()].sort((a, b) => Math.abs(t[b]!) - Math.abs(t[a]!));
  const adjustedP = t.map(() => 0);
  let largest = 0;
  for (const [place, at] of order.entries()) {
    const left = order.slice(place).map((one) => loadings[one]!);
    largest = Math.max(largest, dunnettTail(Math.abs(t[at]!), left, df));
    adjustedP[at] = largest;
  }
  return { t, df, adjustedP };
}
