/** The smallest factor that a plan would show often enough. */

/** Looked for between these factors; found to 5 %. */
const searched = { from: 1.05, to: 20, within: 1.05 } as const;
/** How often a chance is asked for at most: once at the top, then for each halving. */
export const smallestFactorRounds =
  1 + Math.ceil(Math.log2(Math.log(searched.to / searched.from) / Math.log(searched.within)));

/**
 * Halves the way between two factors, on the logarithm, until they lie within 5 %; the larger one, which is often enough. null: not even
 * 20 times would be. `chanceAt` uses the same seeds for every factor, so that the chance does not fall by noise where the factor rises.
 */
export async function smallestFactor(
  chanceAt: (factor: number) => Promise<number>,
  wanted: number,
): Promise<number | null> {
  let [low, high]: [number, number] = [searched.from, searched.to];
  if ((await chanceAt(high)) < wanted) return null;
  while (high / low > searched.within) {
    const middle = Math.sqrt(low * high);
    if ((await chanceAt(middle)) >= wanted) high = middle;
    else low = middle;
  }
  return high;
}
