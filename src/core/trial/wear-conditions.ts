/** What rubs in a wear test, and how: held the same for all coupons, or named by the audit where it was not. */
import { InputError } from "../input-error.ts";

export const wearMotions = ["strokes", "drags", "turns of a tumbler", "minutes in a tumbler"] as const;
export type WearMotion = (typeof wearMotions)[number];

/** null: nobody wrote it down. Load in grams, speed in counts per minute. */
export type WearConditions = {
  /** What is counted. */
  motion: WearMotion;
  /** "felt pad, oiled". */
  medium: string;
  grit: string | null;
  loadG: number | null;
  perMinute: number | null;
  by: "hand" | "jig" | null;
};

export const wearCircumstanceNames = ["what rubs", "grit", "rubbing load", "rubbing speed", "hand or jig"] as const;
type WearCircumstance = (typeof wearCircumstanceNames)[number];

/** One circumstance of a wear test: grams, counts per minute, or words; null where nobody wrote it down. */
export function wearCircumstance(conditions: WearConditions, name: WearCircumstance): string | number | null {
  switch (name) {
    case "what rubs":
      return conditions.medium === "" ? null : conditions.medium;
    case "grit":
      return conditions.grit;
    case "rubbing load":
      return conditions.loadG;
    case "rubbing speed":
      return conditions.perMinute;
    case "hand or jig":
      return conditions.by;
  }
}

/** The word beside a count: "80 turns". */
const wearUnits = {
  strokes: "strokes",
  drags: "drags",
  "turns of a tumbler": "turns",
  "minutes in a tumbler": "minutes",
} as const satisfies Record<WearMotion, string>;
export type WearUnit = (typeof wearUnits)[WearMotion];

/** Whether a question counts wear rather than days. */
export function isWearUnit(unit: string): unit is WearUnit {
  return Object.values<string>(wearUnits).includes(unit);
}

/** What the tests of one question counted; strokes where nobody wrote it down. One motion only: see requireSameMotion. */
export function countedUnit(tests: readonly { conditions?: WearConditions }[]): WearUnit {
  const told = tests.find(({ conditions }) => conditions)?.conditions;
  return wearUnits[told?.motion ?? "strokes"];
}

/** What of a wear test says how it was made. */
type RubbedCoupon = { coupon: string; conditions?: WearConditions };

/** Refuses a test that counts something else than the others: strokes and turns have no common scale. */
export function requireSameMotion(standing: readonly { body: RubbedCoupon }[], { conditions }: RubbedCoupon): void {
  if (!conditions) return;
  for (const { body } of standing)
    if (body.conditions && body.conditions.motion !== conditions.motion)
      throw new InputError(
        "conditions.motion",
        conditions.motion,
        `${body.conditions.motion}, as at coupon ${body.coupon}`,
      );
}
