/**
 * A second look at the same face of a coupon on the same day measures the inspector, not the coupon: the first one counts, the second is
 * compared with it.
 */
import { fewestForKappa } from "../rating/eye-agreement.ts";
import { weightedKappa } from "../statistics/kappa.ts";
import { exposureDay } from "./exposure-days.ts";
import { gradedPhotos } from "./photo-gradings.ts";
import { gradeOnScale } from "./rust-scale-grade.ts";
import { isPercentLook, type Look, type Observed, type TrialRecord } from "./trial-record.ts";

/** `kappa` null: every look of both passes gave the same class, so that chance alone would agree. */
export type SecondPass = { looks: number; kappa: number | null };

type Passes = { first: Observed<Look>[]; second: { first: Observed<Look>; again: Observed<Look> }[] };

/** In the order they were recorded. Two rows of a table on one day are two readings of one look: the table says no order. */
export function lookPasses(record: TrialRecord): Passes {
  const passes: Passes = { first: [], second: [] };
  const seen = new Map<string, Observed<Look>>();
  for (const look of record.looks) {
    const { coupon, face, when, how } = look.body;
    const key = JSON.stringify([coupon, face, exposureDay(record, coupon, when)]);
    const earlier = seen.get(key);
    if (how === "table" || !earlier) {
      passes.first.push(look);
      if (how !== "table") seen.set(key, look);
    } else passes.second.push({ first: earlier, again: look });
  }
  return passes;
}

/** Agreement of the classes of a second blind pass with the first; null: there was none. */
export function secondPass(record: TrialRecord): SecondPass | null {
  const blind = lookPasses(record).second.filter(({ again }) => again.body.blind || again.body.how === "photo");
  if (blind.length === 0) return null;
  const pairs = blind.map(({ first, again }) => [classOf(first.body), classOf(again.body)] as const);
  return agreementOf(pairs);
}

/** Agreement of the photographs' areas with the first blind grading of each inspector; null: fewer than ten so far. */
export function photoPass(record: TrialRecord): SecondPass | null {
  const first = new Map(
    [...gradedPhotos(record)].reverse().map((one) => [JSON.stringify([one.by, one.key]), one] as const),
  );
  const pairs = [...first.values()].map(
    ({ measuredPercent, read }) => [classOfPercent(measuredPercent), classOfPercent(read)] as const,
  );
  return pairs.length < fewestForKappa ? null : agreementOf(pairs);
}

function agreementOf(pairs: readonly (readonly [number, number])[]): SecondPass {
  const classes = Math.max(...pairs.flat()) + 1;
  const table = Array.from({ length: classes }, (_, row) =>
    Array.from({ length: classes }, (_, column) => pairs.filter(([a, b]) => a === row && b === column).length),
  );
  const same = pairs.flat().every((one) => one === pairs[0]![0]);
  return {
    looks: pairs.length,
    kappa: same ? null : weightedKappa({ table, confidence: 0.95, weights: "quadratic" }).kappa,
  };
}

/** Percents by the table of ISO 10289, as everywhere where grades are made of them. */
function classOf(look: Look): number {
  return isPercentLook(look) ? classOfPercent(look.rustedPercent) : look.rating;
}

const classOfPercent = (percent: number): number => gradeOnScale("iso10289", percent);
