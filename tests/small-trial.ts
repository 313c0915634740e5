/** A small trial for tests: two treatments and a bare witness, three coupons out, one lost. */
import {
  type Observation,
  type ObservationBody,
  type Plan,
  type PutOut,
  trialRecord,
} from "../src/core/trial/trial-record.ts";

export const smallPlan: Plan = {
  question: "Does phosphate help under oil?",
  questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
  treatments: [
    {
      name: "oiled",
      role: "control",
      route: [
        { name: "alkaline cleaner", treated: "together" },
        { name: "emulsion oil", treated: "alone" },
      ],
    },
    {
      name: "phosphated",
      role: "finish",
      route: [
        { name: "alkaline cleaner", treated: "together" },
        { name: "manganese phosphate", treated: "together" },
        { name: "emulsion oil", treated: "alone" },
      ],
    },
    { name: "bare", role: "witness", route: [] },
  ],
  couponSize: { lengthMm: 150, widthMm: 100, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 2, 4],
  places: [
    { coupon: "1", treatment: "phosphated", block: "A", rack: { row: 1, column: 1 }, spare: false },
    { coupon: "2", treatment: "oiled", block: "A", rack: { row: 1, column: 2 }, spare: false },
    { coupon: "3", treatment: "bare", block: "A", rack: { row: 1, column: 3 }, spare: false },
    { coupon: "4", treatment: "oiled", block: "A", rack: { row: 1, column: 4 }, spare: true },
  ],
  allocation: { how: "drawn", seed: 7 },
  invented: false,
};

export function smallRecord(bodies: readonly ObservationBody[] = [], plan: Plan = smallPlan) {
  const observations = [{ kind: "plan", plan } as const, ...bodies].map(
    (body, at): Observation => ({
      id: `00000000-0000-4000-8000-${String(at).padStart(12, "0")}`,
      recordedAt: "2026-03-01T08:00:00Z",
      by: "A",
      corrects: null,
      body,
    }),
  );
  return trialRecord({ id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", name: "shed trial" }, observations);
}

export const putOut: PutOut = { kind: "put out", site: "shed", date: "2026-03-01", coupons: ["1", "2", "3"] };
export const lost: ObservationBody = {
  kind: "taken down",
  coupon: "2",
  when: { date: "2026-03-05" },
  reason: "lost",
  note: "",
};
