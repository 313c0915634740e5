/** An invented trial of 40 coupons and 10 looks, and how long its findings take. Runs in Node and in a browser alike. */

import { seededRandom } from "../src/core/numeric/random.ts";
import type { DeclaredQuestion } from "../src/core/trial/declared-question.ts";
import { type ObservationBody, type Plan, trialRecord } from "../src/core/trial/trial-record.ts";
import { answers } from "../src/web/findings/findings-work.ts";

const lookDays = [3, 7, 10, 14, 21, 28, 35, 42, 56, 70];
const treatments = ["oil", "phosphate and oil", "phosphate and wax", "wax", "blued and oil"];
/** Times as long as oil keeps rust away. */
const factors = [1, 2.5, 4, 1.3, 1];
const asked = (response: "time to first rust" | "rusted area", family: "control" | "pairs"): DeclaredQuestion =>
  response === "rusted area"
    ? { response, family, margin: 2, atDay: null }
    : { response, family, margin: 1.5, atDay: null };

const plan: Plan = {
  question: "Which keeps rust away longest?",
  questions: [
    asked("time to first rust", "control"),
    asked("rusted area", "control"),
    asked("time to first rust", "pairs"),
  ],
  treatments: treatments.map((name, at) => ({ name, role: at === 0 ? "control" : "finish", route: null })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays,
  places: treatments.flatMap((treatment, at) =>
    Array.from({ length: 8 }, (_, block) => ({
      coupon: String(8 * at + block + 1),
      treatment,
      block: String(block + 1),
      rack: null,
      spare: false,
    })),
  ),
  allocation: { how: "drawn", seed: 11 },
  invented: true,
};

/** Weibull, shape 2, scale 20 days for the first treatment; after first rust the area grows by the day. */
function looks(): ObservationBody[] {
  const random = seededRandom(20_261_126);
  return plan.places.flatMap(({ coupon, treatment }) => {
    const scale = 20 * factors[treatments.indexOf(treatment)]!;
    const firstDay = scale * Math.sqrt(-Math.log(1 - random.next()));
    const perDay = 0.05 + 0.2 * random.next();
    return lookDays.map(
      (day): ObservationBody => ({
        kind: "look",
        coupon,
        face: "front",
        when: { day },
        rustedPercent: Math.min(100, Math.max(0, perDay * (day - firstDay))),
        edgePercent: null,
        how: "photo",
        blind: true,
        measurement: null,
      }),
    );
  });
}

const record = trialRecord(
  { id: "00000000-0000-4000-8000-000000000000", name: "forty coupons" },
  [{ kind: "plan", plan } satisfies ObservationBody, ...looks()].map((body, at) => ({
    id: `00000000-0000-4000-8000-${String(at + 1).padStart(12, "0")}`,
    recordedAt: "2026-03-01T10:00:00Z",
    by: "bench",
    corrects: null,
    body,
  })),
);

/** Milliseconds to the answers of all questions, and to what may be unfolded beside them; the first round warms up and is left out. */
export function timedFindings(rounds: number): { answers: number[]; whole: number[] } {
  const times = { answers: [] as number[], whole: [] as number[] };
  for (let round = -1; round < rounds; round++) {
    const began = performance.now();
    let answered = 0;
    for (const done of answers(record)) {
      const found = done.filter((one) => "answer" in one).length;
      if (found !== done.length) throw new Error(JSON.stringify(done.find((one) => "why" in one)));
      if (done.length === plan.questions.length && answered === 0) answered = performance.now() - began;
    }
    if (round < 0) continue;
    times.answers.push(answered);
    times.whole.push(performance.now() - began);
  }
  return times;
}
