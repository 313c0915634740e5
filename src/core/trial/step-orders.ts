/** In which order coupons go through each step: by lot, block after block and batch after batch, so that habit and a cooling bath touch all treatments alike. */
import { seededRandom } from "../numeric/random.ts";
import type { CouponPlace } from "./coupon-place.ts";
import type { Plan } from "./trial-record.ts";
import { batchSteps } from "./whole-plot-levels.ts";

/** `coupons` of one go: a single one, a batch, or all together. */
export type Go = { batch: string | null; coupons: string[] };
export type StepOrder = { step: string; treated: "alone" | "together"; goes: Go[] };

/** Steps in the order in which routes first name them; empty where no lot was drawn or no route was written down. */
export function stepOrders({ treatments, places, allocation }: Plan): StepOrder[] {
  if (allocation.how !== "drawn") return [];
  const { seed } = allocation;
  const inBatches = batchSteps(treatments);
  const steps = treatments.flatMap((one) => one.route ?? []);
  return [...new Set(steps.map((step) => step.name))].map((step, at) => {
    const goesThrough = (place: CouponPlace) =>
      treatments.find((one) => one.name === place.treatment)?.route?.find((own) => own.name === step) ?? null;
    const having = places.filter((place) => goesThrough(place) !== null);
    const treated = having.some((place) => goesThrough(place)?.treated === "alone") ? "alone" : "together";
    // Another lot than the places on the rack, or the order would be theirs.
    const order = drawnOrder(having, (seed % 2 ** 40) + (at + 1) * 1_000_003);
    return { step, treated, goes: goesOf(order, treated, inBatches.includes(step)) };
  });
}

function drawnOrder(places: readonly CouponPlace[], seed: number): CouponPlace[] {
  const random = seededRandom(seed);
  const numbers = (values: readonly (string | null | undefined)[]) =>
    [...new Set(values.flatMap((value) => (value == null ? [] : [Number(value)])))].sort((a, b) => a - b);
  const blocks = numbers(places.map((place) => place.block));
  const batches = numbers(places.map((place) => place.batch));
  const oneOf = (all: readonly number[]) => (all.length === 0 ? 0 : all[random.below(all.length)]!);
  // Who has no block or no batch goes along with any.
  const ranked = random.shuffle(places).map((place) => ({
    place,
    block: place.block === null ? oneOf(blocks) : Number(place.block),
    batch: place.batch === undefined ? oneOf(batches) : Number(place.batch),
  }));
  return ranked.sort((a, b) => a.block - b.block || a.batch - b.batch).map(({ place }) => place);
}

function goesOf(order: readonly CouponPlace[], treated: "alone" | "together", inBatches: boolean): Go[] {
  if (treated === "alone") return order.map(({ coupon, batch }) => ({ batch: batch ?? null, coupons: [coupon] }));
  if (!inBatches) return [{ batch: null, coupons: order.map(({ coupon }) => coupon) }];
  const batches = [...new Set(order.map((place) => place.batch ?? null))];
  return batches
    .map((batch) => ({
      batch,
      coupons: order.filter((place) => (place.batch ?? null) === batch).map(({ coupon }) => coupon),
    }))
    .sort((a, b) => Number(a.batch) - Number(b.batch));
}
