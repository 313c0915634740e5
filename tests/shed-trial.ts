/** A small invented trial for tests: two finishes against a control, two coupons each, and a bare witness. */
import { randomUUID } from "node:crypto";
import type { NewObservation } from "../src/api/observation.ts";
import type { Plan } from "../src/core/trial/trial-record.ts";

const route = ["degrease", "coat", "oil"].map((name) => ({ name, treated: "alone" as const }));

export const shedPlan: Plan = {
  question: "Does the phosphate hold off rust longer than oil alone?",
  questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
  treatments: [
    { name: "oiled, no finish", role: "control", route },
    { name: "manganese phosphate", role: "finish", route },
    { name: "paste wax", role: "finish", route },
    { name: "bare", role: "witness", route: [] },
  ],
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 2, 4, 7, 14],
  places: ["oiled, no finish", "manganese phosphate", "paste wax", "bare"].flatMap((treatment, row) =>
    (treatment === "bare" ? [1] : [1, 2]).map((column) => ({
      coupon: String(row * 2 + column),
      treatment,
      block: null,
      rack: { row: row + 1, column },
      spare: false,
    })),
  ),
  allocation: { how: "drawn", seed: 7 },
  invented: true,
};

/** An observation as a face sends it: Ada's, new, correcting nothing. */
export function written(
  body: NewObservation["body"],
  more: Partial<Pick<NewObservation, "id" | "by" | "corrects">> = {},
): NewObservation {
  return { id: randomUUID(), by: "Ada", corrects: null, body, ...more };
}

export function look(coupon: string, date: string, rustedPercent = 0): NewObservation["body"] {
  return {
    kind: "look",
    coupon,
    face: "front",
    when: { date },
    rustedPercent,
    edgePercent: null,
    how: "eye",
    blind: true,
    measurement: null,
  };
}

export function putOut(coupons: string[], date: string): NewObservation["body"] {
  return { kind: "put out", site: "shed roof", date, coupons };
}
