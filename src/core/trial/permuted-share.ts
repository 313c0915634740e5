/** How often chance alone ties a circumstance so closely to two treatments. */
import { seededRandom } from "../numeric/random.ts";
import type { Compared } from "./analysis.ts";

const draws = 1999;

/**
 * Share of rearrangements within blocks whose statistic is at least the observed one; drawn with a seed of its own, since it decides no
 * verdict by itself. `values` belong to the units of the first, then of the second treatment; null: left out.
 */
export function permutedShare<Value>(
  { units }: Pick<Compared, "units">,
  values: readonly (Value | null)[],
  statistic: (first: Value[], second: Value[]) => number,
): number {
  const known = units
    .flat()
    .map((unit, at) => ({ block: unit.block, value: values[at] ?? null, first: at < units[0].length }))
    .flatMap(({ value, ...rest }) => (value === null ? [] : [{ ...rest, value }]));
  const blocks = [...new Set(known.map((one) => one.block))].map((block) => known.filter((one) => one.block === block));
  const split = (dealt: readonly { value: Value; first: boolean }[]) =>
    statistic(
      dealt.filter((one) => one.first).map((one) => one.value),
      dealt.filter((one) => !one.first).map((one) => one.value),
    );
  const observed = split(known) - 1e-9;
  const random = seededRandom(1);
  let count = 0;
  for (let draw = 0; draw < draws; draw++) {
    const dealt = blocks.flatMap((block) => {
      const labels = random.shuffle(block.map((one) => one.first));
      return block.map(({ value }, at) => ({ value, first: labels[at]! }));
    });
    if (split(dealt) >= observed) count++;
  }
  return (1 + count) / (1 + draws);
}
