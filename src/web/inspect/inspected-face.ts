/** One face of one coupon, as it is being looked at. Its treatment is not among what these screens know. */
import type { PercentLook, Plan, When } from "../../core/trial/trial-record.ts";

export type InspectedFace = {
  trial: string;
  plan: Plan;
  coupon: string;
  face: "front" | "back";
  date: string;
  onDate: (date: string) => void;
  /** The trial is still closed to the inspector. */
  blind: boolean;
  /** Names what is kept of this inspection on this device. */
  keepKey: string;
};

export function lookOf(
  { coupon, face, date, blind }: InspectedFace,
  seen: Pick<PercentLook, "rustedPercent" | "edgePercent" | "how" | "measurement">,
): PercentLook {
  const when: When = { date };
  return { kind: "look", coupon, face, when, blind, ...seen };
}
