/** The draft from which a plan was drawn; null where no lot was drawn. */
import type { DrawablePlan } from "../../core/trial/draw-plan.ts";
import type { Plan } from "../../core/trial/trial-record.ts";

export function draftOfPlan(plan: Plan): DrawablePlan | null {
  const { treatments, places, allocation, invented: _invented, ...said } = plan;
  if (allocation.how !== "drawn") return null;
  const blocks = new Set(places.flatMap((place) => (place.block === null ? [] : [place.block])));
  return {
    ...said,
    treatments: treatments.map((one) => ({
      ...one,
      coupons: places.filter((place) => place.treatment === one.name && !place.spare).length,
    })),
    blocks: Math.max(1, blocks.size),
    sparesOfEach: 0,
    rackColumns: Math.max(1, ...places.map((place) => place.rack?.column ?? 1)),
    seed: allocation.seed,
  };
}
