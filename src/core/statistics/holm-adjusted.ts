/**
 * Holm 1979: p of several comparisons, adjusted for their number whatever they have to do with one another. In the order given.
 *
 * Units   p as fractions, in the order given
 * Source  Holm 1979
 * Status  computed
 */
export function holmAdjusted(pValues: readonly number[]): number[] {
  const order = [...pValues.keys()].sort((a, b) => pValues[a]! - pValues[b]!);
  const adjusted = pValues.map(() => 0);
  let largest = 0;
  for (const [place, at] of order.entries()) {
    largest = Math.max(largest, Math.min(1, (pValues.length - place) * pValues[at]!));
    adjusted[at] = largest;
  }
  return adjusted;
}
