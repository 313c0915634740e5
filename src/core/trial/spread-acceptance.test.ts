import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { answerQuestion } from "./answer-question.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { plannedQuestion } from "./planned-question.ts";
import type { Question } from "./question.ts";
import { acceptedBySpread, spreadOf } from "./spread-acceptance.ts";
import { noTreatmentAllOnOneEdge } from "./spread-rule.ts";
import { trialLayout, unitsOfReplication } from "./units-of-replication.ts";

const draft = (coupons: Record<string, number>, seed: number): DrawablePlan => ({
  question: "Does wax keep longer?",
  questions: [{ response: "time to first rust", family: "pairs", margin: null, atDay: null }],
  treatments: Object.entries(coupons).map(([name, number]) => ({
    name,
    role: "finish",
    route: [{ name, treated: "alone" }],
    coupons: number,
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7],
  blocks: 1,
  spread: "no treatment all on one edge",
  rackColumns: 3,
  sparesOfEach: 0,
  seed,
});

/** Two of three treatments compared; the labels of the third stay where they are. */
function rackOf(seed: number, lost: number) {
  const plan = drawPlan(draft({ a: 3, b: 3, c: 3 }, seed));
  const question = plannedQuestion(plan, plan.questions[0]!);
  const { next } = seededRandom(seed);
  const coupons = question.coupons
    .filter((_, at) => at >= lost)
    .map((one) => ({ ...one, datum: { value: Math.floor(8 * next()) } }));
  const answered: Question = { ...question, kind: "ordinal", scale: { best: 20, worst: -1 }, coupons };
  return { plan, question: answered };
}

/** Every way to give the coupons of a and b their labels anew, those that the draw would have refused left out. */
function byHand({ plan, question }: ReturnType<typeof rackOf>) {
  const own = question.coupons.filter((one) => one.treatment !== "c");
  const na = own.filter((one) => one.treatment === "a").length;
  const racked = plan.places.map(({ coupon, treatment, rack }) => ({
    coupon,
    treatment,
    row: rack!.row,
    column: rack!.column,
  }));
  const value = (at: number) => {
    const { datum } = own[at]!;
    return "value" in datum ? datum.value : 0;
  };
  const rank = own.map(
    (_, at) =>
      own.filter((_, other) => value(other) < value(at)).length +
      own.filter((_, other) => value(other) === value(at)).length / 2,
  );
  const distance = (chosen: number) => {
    const sum = rank.reduce((total, one, at) => total + (chosen & (1 << at) ? one : 0), 0);
    return Math.abs(sum / na - (rank.reduce((total, one) => total + one, 0) - sum) / (own.length - na));
  };
  const observed = own.reduce((bits, one, at) => (one.treatment === "a" ? bits | (1 << at) : bits), 0);
  const all = [...Array(2 ** own.length).keys()].filter(
    (bits) => own.filter((_, at) => bits & (1 << at)).length === na,
  );
  const kept = all.filter((bits) =>
    noTreatmentAllOnOneEdge(
      racked.map((place) => {
        const at = own.findIndex((one) => one.coupon === place.coupon);
        return at < 0 ? place : { ...place, treatment: bits & (1 << at) ? "a" : "b" };
      }),
    ),
  );
  const farthest = Math.max(...kept.map(distance));
  const share = (least: number) => kept.filter((bits) => distance(bits) >= least - 1e-9).length / kept.length;
  return { p: share(distance(observed)), pMin: share(farthest), refused: all.length - kept.length };
}

describe("a draw that was repeated until it was spread", () => {
  test("p and the smallest p count only what the draw would have kept, labels of the others staying where they are", () => {
    let refused = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const rack = rackOf(seed, seed % 3);
      if (new Set(rack.question.coupons.map((one) => one.treatment)).size < 3) continue;
      const expected = byHand(rack);
      refused += expected.refused;
      const finding = answerQuestion(rack.question).findings.find((one) => one.first === "a" && one.second === "b")!;
      if (finding.p !== null && Math.min(...finding.n) > 1) {
        expect(finding.p).toBeCloseTo(expected.p, 10);
        expect(finding.pMin).toBeCloseTo(expected.pMin, 10);
      }
    }
    expect(refused).toBeGreaterThan(20);
  });

  test("what the acceptance says of labels is what the rule says of the rack", () => {
    const { plan, question } = rackOf(3, 2);
    const treatments = ["a", "b"];
    const units = unitsOfReplication(question, trialLayout(question), { treatments, pairs: [["a", "b"]] });
    const accepts = acceptedBySpread(question, units, treatments)!;
    const own = units.flatMap((unit) => unit.coupons.map((one) => one.coupon));
    for (let bits = 0; bits < 2 ** units.length; bits++) {
      const labels = Uint8Array.from(units, (_, at) => (bits >> at) & 1);
      const places = plan.places.map(({ coupon, treatment, rack }) => {
        const at = own.indexOf(coupon);
        return { treatment: at < 0 ? treatment : treatments[labels[at]!]!, ...rack! };
      });
      // The rule judges c too, which no label moves: it was accepted as drawn.
      expect(accepts(labels)).toBe(noTreatmentAllOnOneEdge(places));
    }
  });

  test("a plan that was corrected and is spread no longer is tested as any other", () => {
    const { plan } = rackOf(1, 0);
    const edge = plan.places.map((place, at) => ({ ...place, treatment: at < 3 ? "a" : at < 6 ? "b" : "c" }));
    expect(spreadOf(plan).spread?.places).toHaveLength(9);
    expect(spreadOf({ ...plan, places: edge })).toEqual({});
  });
});
