import { describe, expect, test } from "vitest";
import { deltaE2000 } from "../vision/colour-difference.ts";
import { colourNotes, colourResults } from "./finish-colour.ts";
import { requireAcceptable } from "./observation-rules.ts";
import type { ColourMeasure, ColourState } from "./seen-as.ts";
import { type FinishColour, type ObservationBody, type Plan, trialRecord } from "./trial-record.ts";
import { trialResponse } from "./trial-responses.ts";

const question = (of: ColourMeasure) =>
  ({
    response: "value",
    name: "finish",
    kind: "continuous",
    better: "lower",
    unit: of === "change" ? "ΔE00" : "L*",
    ratio: false,
    scale: null,
    seen: { of, state: "dry and wiped" },
    family: "control",
    margin: 2,
    atDay: null,
  }) as const;

const plan = (of: ColourMeasure): Plan => ({
  question: "How dark does it come out?",
  questions: [question(of)],
  treatments: [
    { name: "bath alone", role: "control", route: null },
    { name: "bath and oil", role: "finish", route: null },
  ],
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [],
  places: ["1", "2", "3", "4"].map((coupon) => ({
    coupon,
    treatment: Number(coupon) < 3 ? "bath alone" : "bath and oil",
    block: null,
    rack: null,
    spare: false,
  })),
  allocation: { how: "drawn", seed: 1 },
  invented: true,
});

const grey = (lStar: number) => ({ lStar, aStar: 0, bStar: 0 });
type Seen = [coupon: string, date: string, lStar: number, how?: { state?: ColourState; tone?: number; sd?: number }];

const colour = ([coupon, date, lStar, { state = "dry and wiped", tone = 0, sd = 1 } = {}]: Seen): FinishColour => ({
  kind: "finish colour",
  coupon,
  when: { date },
  state,
  reading: {
    photo: "a".repeat(64),
    map: "b".repeat(64),
    method: "invented",
    lab: grey(lStar + tone),
    lightnessSd: sd,
    blotches: [],
    // A camera that shows everything lighter by `tone` shows the card's patches so too.
    patches: [20, 45, 70, 93].map((patch) => grey(patch + tone)),
  },
  note: "",
});

const observed = (bodies: ObservationBody[]) =>
  bodies.map((body, at) => ({
    id: `00000000-0000-4000-8000-${String(at).padStart(12, "0")}`,
    recordedAt: "2026-03-01T10:00:00Z",
    by: "ada",
    corrects: null,
    body,
  }));
const record = (of: ColourMeasure, seen: Seen[]) =>
  trialRecord({ id: "t", name: "colours" }, observed([{ kind: "plan", plan: plan(of) }, ...seen.map(colour)]));

describe("finish colours as a response", () => {
  test("two cameras that differ by 8 L* agree once their patches do", () => {
    const trial = record("lightness", [
      ["1", "2026-03-01", 30],
      ["2", "2026-03-01", 30, { tone: 8 }],
      ["3", "2026-03-01", 26],
    ]);
    const values = colourResults(trial, { of: "lightness", state: "dry and wiped" }).map(({ value }) => value);
    expect(values[0]).toBeCloseTo(values[1]!, 10);
    expect(values[0]! - values[2]!).toBeCloseTo(4, 10);
    expect(colourNotes(trial, { of: "lightness", state: "dry and wiped" }).join()).toContain("8 L* apart");
  });

  test("the first date counts, its readings averaged; other states are left out and said", () => {
    const trial = record("lightness", [
      ["1", "2026-03-01", 30],
      ["1", "2026-03-01", 32],
      ["1", "2026-04-01", 50],
      ["2", "2026-03-01", 20, { state: "oiled" }],
    ]);
    const answer = trialResponse(trial, question("lightness"), new Set(["1", "2"]));
    expect(answer.data.get("1")).toEqual({ value: 31 });
    expect(answer.data.has("2")).toBe(false);
    expect(answer.notes).toContain("Read dry and wiped only; 1 reading in another state left out.");
  });

  test("a change runs from the first date to the last by CIEDE2000; one date tells none", () => {
    const trial = record("change", [
      ["1", "2026-04-01", 36],
      ["1", "2026-03-01", 30],
      ["3", "2026-03-01", 30],
    ]);
    const answer = trialResponse(trial, question("change"), new Set(["1", "3"]));
    expect(answer.data.get("1")).toEqual({ value: deltaE2000({ first: grey(30), second: grey(36) }) });
    expect(answer.unit).toBe("ΔE00");
    expect(answer.notes.join()).toContain("Coupon 3: read on one date only");
  });

  test("unevenness is the first date's own spread", () => {
    const trial = record("unevenness", [["1", "2026-03-01", 30, { sd: 2.5 }]]);
    expect(colourResults(trial, { of: "unevenness", state: "dry and wiped" })[0]).toMatchObject({ value: 2.5 });
  });
});

describe("a finish colour is refused", () => {
  const trial = { id: "t", name: "colours", observations: observed([{ kind: "plan", plan: plan("lightness") }]) };
  const add = (body: FinishColour, observations = trial.observations) =>
    requireAcceptable(
      { ...trial, observations },
      { ...observed([body])[0]!, id: "10000000-0000-4000-8000-000000000000" },
    );
  test("of a coupon that is not there", () => {
    expect(() => add(colour(["9", "2026-03-01", 30]))).toThrow(/coupon/);
  });
  test("where the card has other patches than before", () => {
    const one = colour(["1", "2026-03-01", 30]);
    const other = { ...one, reading: { ...one.reading, patches: one.reading.patches.slice(1) } };
    expect(() => add(other, observed([{ kind: "plan", plan: plan("lightness") }, one]))).toThrow(/patches/);
  });
});
