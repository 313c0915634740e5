/** Which carrying-out of each step a coupon went through: as it was recorded, and where it was not, as planned. */
import type { CouponPlace } from "./coupon-place.ts";
import type { Application, RouteStep, TrialRecord } from "./trial-record.ts";
import { batchSteps } from "./whole-plot-levels.ts";

/** The step under which the batches of a plain table are kept: it has no routes. */
export const tableBatchStep = "batch";

type Applications = Readonly<Record<string, string | null>>;

/**
 * By coupon and step. null: the coupon's route skips the step. A step that nobody recorded follows the plan: "together" is
 * one go for all that have it, which is the cautious reading, or the batch that was drawn; "alone" is a go for each.
 */
export function trialApplications(record: TrialRecord): Map<string, Applications> {
  const { plan, applications } = record;
  const steps = stepNames(record);
  const inBatches = batchSteps(plan.treatments);
  const went = new Map<string, string[]>();
  for (const { id, body } of applications)
    for (const coupon of body.coupons) {
      const key = keyOf(body.step, coupon);
      went.set(key, [...(went.get(key) ?? []), id]);
    }
  return new Map(
    plan.places.map((place) => {
      const { coupon, treatment } = place;
      const route = plan.treatments.find((one) => one.name === treatment)?.route ?? null;
      const own = steps.map((step) => {
        const ids = went.get(keyOf(step, coupon));
        // A step done twice is another treatment than the step done once: both goes together name it.
        if (ids) return [step, ids.join("+")] as const;
        return [step, route === null ? null : asPlanned(route, step, place, inBatches)] as const;
      });
      return [coupon, Object.fromEntries(own)] as const;
    }),
  );
}

const keyOf = (step: string, coupon: string): string => JSON.stringify([step, coupon]);

function asPlanned(
  route: readonly RouteStep[],
  step: string,
  { coupon, batch }: CouponPlace,
  inBatches: readonly string[],
): string | null {
  const planned = route.find((one) => one.name === step);
  if (!planned) return null;
  if (planned.treated === "alone") return `${step}, coupon ${coupon} by itself`;
  return batch !== undefined && inBatches.includes(step) ? `${step}, batch ${batch}` : `${step}, all together`;
}

/** Steps of any route, and of any application. */
function stepNames({ plan, applications }: TrialRecord): string[] {
  const planned = plan.treatments.flatMap((one) => one.route?.map((step) => step.name) ?? []);
  return [...new Set([...planned, ...applications.map(({ body }: { body: Application }) => body.step)])];
}

/** Steps that some of these treatments have and others do not: what the trial compares. */
export function differingSteps(routes: readonly (readonly string[])[]): string[] {
  const all = [...new Set(routes.flat())];
  return all.filter((step) => routes.some((route) => !route.includes(step)));
}

/** Every coupon that a differing step of its route touched has a recorded application of it. */
export function isTreatmentRecorded(record: TrialRecord, comparedTreatments: readonly string[]): boolean {
  const routes = record.plan.treatments.filter((one) => comparedTreatments.includes(one.name)).map((one) => one.route);
  const coupons = record.plan.places.filter((place) => comparedTreatments.includes(place.treatment));
  if (routes.some((route) => route === null))
    return record.applications.some(({ body }) => coupons.some((place) => body.coupons.includes(place.coupon)));
  const differing = differingSteps(routes.map((route) => (route ?? []).map((step) => step.name)));
  return coupons
    .filter((place) => !place.spare)
    .every(({ coupon, treatment }) => {
      const route = record.plan.treatments.find((one) => one.name === treatment)?.route ?? [];
      return route
        .filter((step) => differing.includes(step.name) && step.treated === "alone")
        .every((step) =>
          record.applications.some(({ body }) => body.step === step.name && body.coupons.includes(coupon)),
        );
    });
}
