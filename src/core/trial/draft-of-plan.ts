/** The draft from which a plan was drawn; null where no lot was drawn. */
import { type CouponPlace, destructiveTests } from "./coupon-place.ts";
import type { DrawablePlan } from "./draw-plan.ts";
import type { Plan } from "./trial-record.ts";
import { batchLevel, batchSteps } from "./whole-plot-levels.ts";

/** Counts, blocks, batches and seed as they were asked for; lengths in mm. Drawing it anew gives the plan. */
export function draftOfPlan(plan: Plan): DrawablePlan | null {
  const { treatments, places, allocation, invented: _invented, ...said } = plan;
  if (allocation.how !== "drawn") return null;
  const hung = places.filter((place) => !place.spare && place.keptFor === undefined);
  const blocks = [...new Set(hung.map((place) => place.block))];
  return {
    ...said,
    treatments: treatments.map((one) => ({
      ...one,
      coupons: hung.filter((place) => place.treatment === one.name).length,
    })),
    blocks: blocks.length,
    ...incompleteBlocksOf(plan, hung, blocks),
    ...batchesOf(plan),
    ...(allocation.spread === undefined ? {} : { spread: allocation.spread }),
    ...testCouponsOf(plan),
    sparesOfEach: places.filter((place) => place.spare && place.treatment === treatments[0]?.name).length,
    rackColumns: Math.max(1, ...places.map((place) => place.rack?.column ?? 1)),
    seed: allocation.seed,
  };
}

function incompleteBlocksOf({ treatments }: Plan, hung: readonly CouponPlace[], blocks: readonly (string | null)[]) {
  const compared = treatments.filter((one) => one.role !== "witness").map((one) => one.name);
  const sizes = blocks.map((block) => {
    const inside = hung.filter((place) => place.block === block).map((place) => place.treatment);
    return compared.filter((name) => inside.includes(name)).length;
  });
  const blockSize = Math.max(...sizes);
  return blockSize < compared.length && blocks.length > 1 ? { blockSize } : {};
}

function batchesOf({ treatments, places }: Plan) {
  const steps = batchSteps(treatments);
  const counts = treatments
    .map((one) => batchLevel(one, steps))
    .filter((level) => level !== null)
    .map((level) => {
      const own = treatments.filter((one) => batchLevel(one, steps) === level).map((one) => one.name);
      return new Set(places.filter((place) => own.includes(place.treatment)).flatMap((place) => place.batch ?? []))
        .size;
    });
  const batchesOfEach = Math.max(0, ...counts);
  return batchesOfEach > 1 ? { batchesOfEach } : {};
}

function testCouponsOf({ treatments, places }: Plan) {
  const one = treatments.find(({ role }) => role !== "witness")?.name;
  const testCoupons = destructiveTests.flatMap((test) => {
    const ofEach = places.filter((place) => place.keptFor === test && place.treatment === one).length;
    return ofEach > 0 ? [{ test, ofEach }] : [];
  });
  return testCoupons.length > 0 ? { testCoupons } : {};
}
