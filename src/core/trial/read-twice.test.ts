import { describe, expect, test } from "vitest";
import { shedPlan, written } from "../../../tests/shed-trial.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { saysOtherwise } from "./read-twice.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, type ObservationBody, trialRecord } from "./trial-record.ts";
import { trialResponse } from "./trial-responses.ts";
import type { WeighedState } from "./weighed-as.ts";

const base = { family: "control", margin: null, atDay: null } as const;
const value = { response: "value", better: "higher", ratio: false, scale: null, ...base } as const;
const questions: DeclaredQuestion[] = [
  { response: "tape class", ...base },
  { response: "time to first rust", ...base },
  { response: "strokes to breakthrough", place: "face", ...base },
  { ...value, name: "thickness", kind: "continuous", unit: "µm" },
  { ...value, name: "water beads", kind: "binary", unit: "" },
  { ...value, name: "coating mass", kind: "continuous", unit: "g/m²", weighed: "gain" },
  { ...value, name: "darkness", kind: "continuous", unit: "L*", seen: { of: "lightness", state: "oiled" } },
];
const plan = { ...shedPlan, questions };

const when = { date: "2026-05-03" };
const test1 = { coupon: "1", blind: true, note: "" } as const;
const tape = (tapeClass: "4B" | "2B") => ({ kind: "tape test", ...test1, when, tapeClass }) as const;
const wear = (rightStrokes: number) =>
  ({ kind: "wear test", ...test1, when, place: "face", leftStrokes: 10, rightStrokes }) as const;
const rust = (rightDays: number) => ({ kind: "first rust", ...test1, leftDays: 1, rightDays }) as const;
const read = (name: string, one: number) =>
  ({ kind: "value", ...test1, when, name, value: one, how: "bench" }) as const;
const mass = (massG: number, state: WeighedState = "coated"): ObservationBody => ({
  ...{ kind: "weighing", ...test1, when, with: [], state, massG, balanceMg: 1 },
});
const bare = mass(78, "bare");
const grey = (lStar: number) => ({ lStar, aStar: 0, bStar: 0 });
const colour = (lStar: number): ObservationBody => ({
  ...{ kind: "finish colour", coupon: "1", when, state: "oiled", note: "" },
  reading: {
    ...{ photo: "a".repeat(64), map: "b".repeat(64), method: "invented" },
    ...{ lab: grey(lStar), lightnessSd: 1, blotches: [], patches: [grey(20), grey(93)] },
  },
});

type From = { device?: string; at: string; arrived: string };
const onDay = (time: string) => `2026-05-03T${time}:00Z`;
const told = (body: ObservationBody, { device, at, arrived }: From): Observation => ({
  ...written(body),
  recordedAt: onDay(arrived),
  written: { at: onDay(at), deviceClock: onDay(at), skewMs: 0 },
  ...(device && { device }),
});
const ada = { device: "Ada's phone", at: "10:00", arrived: "12:00" };
const ines = { device: "Ines's phone", at: "10:20", arrived: "11:00" };
const begun: Observation[] = [
  { ...written({ kind: "plan", plan }), recordedAt: "2026-04-01T08:00:00Z" },
  { ...written(bare), recordedAt: "2026-04-02T08:00:00Z" },
];
const taken = (...all: Observation[]) => [...begun, ...all];
const recordOf = (...all: Observation[]) => trialRecord({ id: "shed", name: "shed" }, taken(...all));
/** What the trial answers of coupon 1 by the question at that place. */
const answerOf = (asked: number, ...all: Observation[]) =>
  trialResponse(recordOf(...all), questions[asked]!, new Set(["1"])).data.get("1");

const gm2 = (one: number) => ({ value: expect.closeTo(one, 2) });
type Case = [string, number, ObservationBody, ObservationBody, unknown, unknown];
/** Weighed: 25 mg on 2 (100 x 50 + 100 x 2 + 50 x 2) mm² = 106 cm² are 2.36 g/m², by 0.77: 3.06; 45 mg: 4.25, 5.51. */
const cases: Case[] = [
  ["a tape class", 0, tape("4B"), tape("2B"), { value: 4 }, { value: 2 }],
  ["a time to first rust", 1, rust(3), rust(5), { left: 1, right: 3 }, { left: 1, right: 5 }],
  ["a wear test", 2, wear(20), wear(40), { left: 10, right: 20 }, { left: 10, right: 40 }],
  ["a thickness", 3, read("thickness", 8), read("thickness", 11), { value: 8 }, { value: 11 }],
  ["yes or no", 4, read("water beads", 1), read("water beads", 0), { value: 1 }, { value: 0 }],
  ["a colour", 6, colour(28), colour(36), { value: 28 }, { value: 36 }],
  ["a mass", 5, mass(78.025), mass(78.045), gm2(3.06), gm2(5.51)],
];

describe.each(cases)("%s by two phones that knew nothing of each other", (_what, asked, first, second, one, other) => {
  test("is taken twice; the one written first counts, whichever came first, until somebody says", () => {
    const [adas, iness] = [told(first, ada), told(second, ines)];
    for (const [came, then] of [
      [adas, iness],
      [iness, adas],
    ] as const) {
      const trial = { id: "shed", name: "shed", observations: taken(came) };
      expect(() => requireAcceptable(trial, then)).not.toThrow();
      const { twice } = recordOf(came, then);
      expect(twice).toMatchObject([{ counts: { id: adas.id }, differs: { id: iness.id } }]);
      expect(twice.filter(saysOtherwise)).toHaveLength(1);
      expect(answerOf(asked, came, then)).toMatchObject(one as object);
    }
    const [question] = trialQuestions(recordOf(adas, iness)).filter(({ undecidedReadings }) => undecidedReadings);
    expect(question?.undecidedReadings).toBe(1);
  });

  test.each([
    ["the first", one, 1],
    ["the other", other, 0],
  ])("%s stands once somebody says so", (_which, expected, gone) => {
    const both = [told(first, ada), told(second, ines)];
    const choice: Observation = {
      ...written({ kind: "withdrawal" }, { corrects: { id: both[gone]!.id, why: "read again together" } }),
      recordedAt: onDay("20:00"),
    };
    requireAcceptable({ id: "shed", name: "shed", observations: taken(...both) }, choice);
    expect(recordOf(...both, choice).twice).toEqual([]);
    expect(answerOf(asked, ...both, choice)).toMatchObject(expected as object);
  });

  test("read alike it is counted once, and nobody is asked", () => {
    const record = recordOf(told(first, ada), told(first, ines));
    expect(record.twice).toHaveLength(1);
    expect(record.twice.filter(saysOtherwise)).toEqual([]);
    expect(answerOf(asked, told(first, ada), told(first, ines))).toMatchObject(one as object);
  });
});

describe("a second reading of a coupon", () => {
  const trial = { id: "shed", name: "shed", observations: taken(told(wear(20), ada)) };

  test.each([
    ["from the same device", { ...ines, device: "Ada's phone" }],
    ["by somebody who could know of the first", { ...ines, at: "12:30", arrived: "12:31" }],
  ])("%s is refused: correct the one that stands", (_what, from) =>
    expect(() => requireAcceptable(trial, told(wear(40), from))).toThrow(/correct it/),
  );

  test("that says it is a further one is none: the mean counts", () => {
    const further: ObservationBody = { ...wear(40), again: true };
    expect(recordOf(told(wear(20), ada), told(further, ines)).twice).toEqual([]);
    expect(answerOf(2, told(wear(20), ada), told(further, ines))).toEqual({ left: 10, right: 30 });
  });

  test.each([
    ["no eye could tell apart", 28.9, 0],
    ["an eye tells apart", 30, 1],
  ])("of a colour, which %s, is asked about or not; the first one counts", (_how, lStar, asked) => {
    const record = recordOf(told(colour(28), ada), told(colour(lStar), ines));
    expect(record.twice.filter(saysOtherwise)).toHaveLength(asked);
    expect(answerOf(6, told(colour(28), ada), told(colour(lStar), ines))).toEqual({ value: 28 });
  });

  test("of a colour by somebody who could know of the first is averaged, as ever", () => {
    const knowing = told(colour(36), { ...ines, at: "12:30", arrived: "12:31" });
    expect(recordOf(told(colour(28), ada), knowing).twice).toEqual([]);
    expect(answerOf(6, told(colour(28), ada), knowing)).toEqual({ value: 32 });
  });

  test("corrected before anybody chose, is as old as what it corrects", () => {
    const [first, second] = [told(wear(20), ada), told(wear(40), ines)];
    const better: Observation = {
      ...written(wear(24), { corrects: { id: first.id, why: "counted again" } }),
      recordedAt: onDay("18:00"),
    };
    requireAcceptable({ ...trial, observations: taken(first, second) }, better);
    expect(recordOf(first, second, better).twice).toMatchObject([
      { counts: { id: better.id }, differs: { id: second.id } },
    ]);
    expect(answerOf(2, first, second, better)).toEqual({ left: 10, right: 24 });
  });

  test("by a third device is asked about too", () => {
    const third = { device: "the tablet", at: "10:40", arrived: "12:10" };
    const record = recordOf(told(wear(20), ada), told(wear(40), ines), told(wear(60), third));
    expect(record.twice.map(({ differs }) => differs.body)).toMatchObject([{ rightStrokes: 40 }, { rightStrokes: 60 }]);
  });
});
