/** Which planned batch carries which coupon: batches in random order, the treatments of each dealt evenly, by lot within it. */
import { InputError, requireWhole } from "../input-error.ts";
import type { SeededRandom } from "../numeric/random.ts";
import type { CouponPlace } from "./coupon-place.ts";
import type { Treatment } from "./trial-record.ts";
import { batchLevel, batchSteps } from "./whole-plot-levels.ts";

/**
 * Adds the number of the batch, in the order in which the batches are to be run. Each block has batches of its own; coupons without a block
 * (spares, those kept for a test) go along with any. `batchesOfEach` counts the batches of one level over all blocks.
 */
export function withBatches(
  places: readonly CouponPlace[],
  { treatments, batchesOfEach }: { treatments: readonly Treatment[]; batchesOfEach: number },
  random: SeededRandom,
): CouponPlace[] {
  requireWhole("batchesOfEach", batchesOfEach, 1);
  const steps = batchSteps(treatments);
  if (steps.length === 0)
    throw new InputError("batchesOfEach", batchesOfEach, "a step done together that not all treatments have");
  const levelOf = new Map(treatments.map((one) => [one.name, batchLevel(one, steps)]));
  const levels = [...new Set(levelOf.values())].filter((level) => level !== null);
  const blocks = [...new Set(places.filter((one) => !isApart(one)).map((one) => one.block))];
  if (batchesOfEach % blocks.length !== 0)
    throw new InputError("batchesOfEach", batchesOfEach, `as many in each of the ${blocks.length} blocks`);
  requireFilled(places, levelOf, batchesOfEach);
  const run = blocks.flatMap((block) =>
    random.shuffle(levels.flatMap((level) => Array(batchesOfEach / blocks.length).fill({ block, level }))),
  );
  return dealt(places, levelOf, run, random);
}

const isApart = (place: CouponPlace): boolean => place.spare || place.keptFor !== undefined;

/** A batch without a coupon of a treatment compares nothing. */
function requireFilled(
  places: readonly CouponPlace[],
  levelOf: ReadonlyMap<string, string | null>,
  batchesOfEach: number,
): void {
  for (const [treatment, level] of levelOf) {
    const own = places.filter((one) => !isApart(one) && one.treatment === treatment).length;
    if (level !== null && own < batchesOfEach)
      throw new InputError("batchesOfEach", batchesOfEach, `no more than the ${own} coupons of "${treatment}"`);
  }
}

type Batch = { block: string | null; level: string };

/** Round the batches of its level, from where the last treatment left off, so that none is two fuller than another. */
function dealt(
  places: readonly CouponPlace[],
  levelOf: ReadonlyMap<string, string | null>,
  run: readonly Batch[],
  random: SeededRandom,
): CouponPlace[] {
  const batchOf = new Map<string, string>();
  const groupOf = (one: CouponPlace) => {
    const level = levelOf.get(one.treatment) ?? null;
    const keptFor = one.keptFor ?? null;
    return isApart(one)
      ? { level, apart: true, block: null, keptFor }
      : { level, apart: false, block: one.block, keptFor };
  };
  const keyOf = (one: CouponPlace) => JSON.stringify(groupOf(one));
  for (const key of new Set(places.map(keyOf))) {
    const own = places.filter((one) => keyOf(one) === key);
    const { level, apart, block, keptFor } = groupOf(own[0]!);
    const numbers = run.flatMap((batch, at) =>
      batch.level === level && (apart || batch.block === block) ? [String(at + 1)] : [],
    );
    if (numbers.length === 0) continue;
    const order = random.shuffle(numbers);
    let next = 0;
    for (const treatment of new Set(own.map((one) => one.treatment))) {
      // Few are kept for a test: only in the same batches can they be compared.
      if (keptFor !== null) next = 0;
      for (const { coupon } of random.shuffle(own.filter((one) => one.treatment === treatment)))
        batchOf.set(coupon, order[next++ % order.length]!);
    }
  }
  return places.map((place) => {
    const batch = batchOf.get(place.coupon);
    return batch === undefined ? place : { ...place, batch };
  });
}
