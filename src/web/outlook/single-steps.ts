/** Steps that several coupons share in one go and that another treatment does not have: made single, each coupon counts. */
import type { RouteStep, TreatmentRole } from "../../core/trial/trial-record.ts";

type Routed = { role: TreatmentRole; route: RouteStep[] };

export function withSingleSteps<Treatment extends Routed>(treatments: readonly Treatment[]): Treatment[] {
  const compared = treatments.filter((one) => one.role !== "witness");
  const inAll = (name: string) => compared.every((one) => one.route.some((step) => step.name.trim() === name.trim()));
  return treatments.map((one) =>
    one.role === "witness"
      ? one
      : { ...one, route: one.route.map((step) => (inAll(step.name) ? step : { ...step, treated: "alone" as const })) },
  );
}

export function hasSharedDifference(treatments: readonly Routed[]): boolean {
  return JSON.stringify(withSingleSteps(treatments)) !== JSON.stringify(treatments);
}
