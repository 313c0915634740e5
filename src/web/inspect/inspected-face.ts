/** One face of one coupon, as it is being looked at. Its treatment is not among what these screens know. */
import type { ShopModelName } from "../../api/photo.ts";
import type { PercentLook, Plan, When } from "../../core/trial/trial-record.ts";
import type { FirstPhotograph, LeftOutBefore } from "./earlier-photographs.ts";

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
  /** The face's first photograph on the card, before this look; null: this is the first. */
  first: FirstPhotograph | null;
  /** Places left out at its last look: a hole is where it was. */
  leftOut: LeftOutBefore | null;
  /** The shop's own model that this trial is read by; null: the one that comes with the program. */
  shopModel: ShopModelName | null;
};

export function lookOf(
  { coupon, face, date, blind }: InspectedFace,
  seen: Pick<PercentLook, "rustedPercent" | "edgePercent" | "how" | "measurement">,
): PercentLook {
  const when: When = { date };
  return { kind: "look", coupon, face, when, blind, ...seen };
}
