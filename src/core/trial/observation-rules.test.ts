import { describe, expect, test } from "vitest";
import { requireAcceptable, requireTrial } from "./observation-rules.ts";
import type { Observation, ObservationBody, Plan, TakenDownReason, When } from "./trial-record.ts";

const route = [
  { name: "degrease", treated: "together" as const },
  { name: "wax", treated: "alone" as const },
];
const plan: Plan = {
  question: "",
  questions: [],
  treatments: [
    { name: "oil", role: "control", route: [] },
    { name: "wax", role: "finish", route },
  ],
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1],
  places: ["1", "2", "3", "4"].map((coupon, at) => ({
    coupon,
    treatment: at < 2 ? "oil" : "wax",
    block: null,
    rack: { row: 1, column: at + 1 },
    spare: false,
  })),
  allocation: { how: "drawn", seed: 1 },
  invented: true,
};
const ofTable: Plan = {
  ...plan,
  allocation: { how: "assumed" },
  treatments: plan.treatments.map((one) => ({ ...one, route: null })),
};

const said = (id: string, body: ObservationBody, corrects: string | null = null): Observation => ({
  id,
  recordedAt: "2026-05-01T08:00:00Z",
  by: "Ada",
  corrects: corrects === null ? null : { id: corrects, why: "a mistake" },
  body,
});
const trial = (...observations: Observation[]) => ({
  id: "t",
  name: "shed",
  observations: [said("plan", { kind: "plan", plan }), ...observations],
});
const look = (coupon: string, when: When): ObservationBody => ({
  kind: "look",
  coupon,
  face: "front",
  when,
  rustedPercent: 0,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
});
const tape = (coupon: string, date: string): ObservationBody => ({
  kind: "tape test",
  coupon,
  when: { date },
  tapeClass: "5B",
  blind: true,
  note: "",
});
const putOut = (date: string, ...coupons: string[]): ObservationBody => ({
  kind: "put out",
  site: "roof",
  date,
  coupons,
});
const takenDown = (coupon: string, when: When, reason: TakenDownReason = "rust"): ObservationBody => ({
  kind: "taken down",
  coupon,
  when,
  reason,
  note: "",
});
const on = (date: string) => ({ date: `2026-${date}` });
const out = said("out", putOut("2026-04-10", "1", "2"));

const refusal = (given: Observation[], added: Observation) => () => requireAcceptable(trial(...given), added);

describe("a look", () => {
  test.each<[string, Observation[], ObservationBody]>([
    ["on the day it was put out", [out], look("1", on("04-10"))],
    ["later", [out], look("1", on("05-10"))],
    ["by day number", [out], look("1", { day: 0 })],
    ["on the day it was taken down", [out, said("down", takenDown("1", on("05-01")))], look("1", on("05-01"))],
    [
      "earlier, written down after it was taken down",
      [out, said("down", takenDown("1", on("05-01")))],
      look("1", on("04-20")),
    ],
    ["at another coupon", [out, said("down", takenDown("1", on("05-01")))], look("2", on("06-01"))],
  ])("%s is taken", (_what, given, body) => expect(refusal(given, said("new", body))).not.toThrow());

  test.each<[string, Observation[], ObservationBody, RegExp]>([
    [
      "the day before it was put out",
      [out],
      look("1", on("04-09")),
      /^when.date is "2026-04-09"; expected a date from 2026-04-10 on, when coupon 1 was put out/,
    ],
    [
      "of a coupon that is still indoors",
      [out],
      look("3", on("04-12")),
      /^coupon is "3"; expected a coupon that was put out/,
    ],
    [
      "of a coupon that is not there",
      [out],
      look("9", on("04-12")),
      /^coupon is "9"; expected the number of a coupon of "shed"/,
    ],
    [
      "the day after it was lost",
      [out, said("down", takenDown("1", on("05-01"), "lost"))],
      look("1", on("05-02")),
      /^when.date is "2026-05-02"; expected a time up to when coupon 1 was taken down \(lost\), on 2026-05-01/,
    ],
    // Put out on 10 April, so 1 May is day 21.
    [
      "a day number after the date it was taken down",
      [out, said("down", takenDown("1", on("05-01")))],
      look("1", { day: 22 }),
      /^when.day is 22; expected/,
    ],
    [
      "a date after the day number it was taken down",
      [out, said("down", takenDown("1", { day: 21 }))],
      look("1", on("05-02")),
      /on day 21/,
    ],
  ])("%s is refused", (_what, given, body, words) => expect(refusal(given, said("new", body))).toThrow(words));

  test("dated, in a trial made of a table that says nothing of putting out, is taken", () => {
    const observations = [said("plan", { kind: "plan", plan: ofTable })];
    expect(() =>
      requireAcceptable({ id: "t", name: "shed", observations }, said("new", look("1", on("04-01")))),
    ).not.toThrow();
  });
});

describe("coupons out and down", () => {
  test.each<[string, Observation[], ObservationBody, RegExp]>([
    [
      "out twice",
      [out],
      putOut("2026-05-01", "3", "2"),
      /^coupons\[1\] is "2"; expected a coupon that is not out yet; it was put out on 2026-04-10 at roof/,
    ],
    [
      "one coupon twice in one go",
      [],
      putOut("2026-05-01", "3", "3"),
      /^coupons\[1\] is "3"; expected each coupon once/,
    ],
    [
      "down twice",
      [out, said("down", takenDown("1", on("05-01")))],
      takenDown("1", on("05-03")),
      /^coupon is "1"; expected a coupon that is still there; it was taken down \(rust\) on 2026-05-01/,
    ],
    [
      "down before it was out",
      [out],
      takenDown("1", on("04-09")),
      /^when.date is "2026-04-09"; expected a date from 2026-04-10/,
    ],
    [
      "down before a look that was made",
      [out, said("seen", look("1", on("05-03")))],
      takenDown("1", on("05-01")),
      /^when.date is "2026-05-01"; expected what leaves the rest standing, .*look by Ada.*"2026-05-03"/,
    ],
    [
      "out after it was taken down",
      [said("down", takenDown("3", on("04-01"), "lost"))],
      putOut("2026-05-01", "3"),
      /^date is "2026-05-01"; expected what leaves the rest standing/,
    ],
  ])("%s: refused", (_what, given, body, words) => expect(refusal(given, said("new", body))).toThrow(words));

  test("a spare lost indoors can be written down", () =>
    expect(refusal([out], said("new", takenDown("4", on("04-05"), "lost")))).not.toThrow());
});

describe("a tape test", () => {
  test.each<[string, Observation[], ObservationBody]>([
    ["of a coupon that stayed indoors", [out], tape("4", "2026-04-01")],
    [
      "on the bench after it was taken down for it",
      [out, said("down", takenDown("1", on("05-01"), "test"))],
      tape("1", "2026-05-02"),
    ],
  ])("%s is taken", (_what, given, body) => expect(refusal(given, said("new", body))).not.toThrow());

  test.each<[string, Observation[], ObservationBody]>([
    ["before it was put out", [out], tape("1", "2026-04-09")],
    [
      "of a coupon that was lost before",
      [out, said("down", takenDown("1", on("05-01"), "lost"))],
      tape("1", "2026-05-02"),
    ],
  ])("%s is refused", (_what, given, body) => expect(refusal(given, said("new", body))).toThrow(/^when.date is/));
});

describe("what was done to coupons", () => {
  const done = (step: string, coupons: string[], endedAt: string | null = null): ObservationBody => ({
    kind: "application",
    step,
    coupons,
    startedAt: "2026-04-01T10:00:00+02:00",
    endedAt,
    tempC: null,
    note: "",
  });
  test("a step of their route is taken", () => expect(refusal([], said("new", done("wax", ["3", "4"])))).not.toThrow());
  test("the same moment in another zone is not before its start", () =>
    expect(refusal([], said("new", done("wax", ["3"], "2026-04-01T08:00:00Z")))).not.toThrow());
  test.each<[string, ObservationBody, RegExp]>([
    [
      "a step of another route",
      done("wax", ["3", "1"]),
      /^step is "wax"; expected a step of the route of coupons\[1\], 1/,
    ],
    ["a step that ends before it starts", done("wax", ["3"], "2026-04-01T07:59:00Z"), /^endedAt is/],
    [
      "a deviation in a step that no route has",
      { kind: "deviation", coupons: ["1"], step: "blue", what: "x", paperworkOnly: false },
      /^step is "blue"; expected a step of a route: degrease, wax/,
    ],
  ])("%s is refused", (_what, body, words) => expect(refusal([], said("new", body))).toThrow(words));
});

describe("a correction", () => {
  const seen = said("seen", look("1", on("05-03")));
  test.each<[string, Observation[], Observation]>([
    ["of a look", [out, seen], said("new", look("1", on("05-04")), "seen")],
    ["of a look to another coupon", [out, seen], said("new", look("2", on("05-04")), "seen")],
    ["that withdraws a look", [out, seen], said("new", { kind: "withdrawal" }, "seen")],
    [
      "that takes a withdrawn look up again",
      [out, seen, said("gone", { kind: "withdrawal" }, "seen")],
      said("new", look("1", on("05-04")), "gone"),
    ],
    [
      "of the date of putting out, looks still after it",
      [out, seen],
      said("new", putOut("2026-05-03", "1", "2"), "out"),
    ],
    ["of the plan", [], said("new", { kind: "plan", plan: { ...plan, question: "?" } }, "plan")],
  ])("%s is taken", (_what, given, added) => expect(refusal(given, added)).not.toThrow());

  test.each<[string, Observation[], Observation, RegExp]>([
    [
      "of nothing here",
      [],
      said("new", { kind: "withdrawal" }, "elsewhere"),
      /^corrects.id is "elsewhere"; expected the id of an observation of this trial/,
    ],
    [
      "of what was replaced already",
      [out, seen, said("second", look("1", on("05-04")), "seen")],
      said("new", look("1", on("05-05")), "seen"),
      /^corrects.id .* an observation that still stands; Ada replaced this one on .* by second/,
    ],
    [
      "of a look by something else",
      [out, seen],
      said("new", tape("1", "2026-05-03"), "seen"),
      /^kind is "tape test"; expected "look", as the observation that it corrects/,
    ],
    ["that withdraws nothing", [], said("new", { kind: "withdrawal" }), /^corrects is null/],
    ["that withdraws the plan", [], said("new", { kind: "withdrawal" }, "plan"), /^kind is "withdrawal"/],
    [
      "that withdraws putting out, under a look",
      [out, seen],
      said("new", { kind: "withdrawal" }, "out"),
      /^corrects.id is "out"; expected what leaves the rest standing, but then of the look by Ada/,
    ],
    [
      "that moves putting out behind a look",
      [out, seen],
      said("new", putOut("2026-05-04", "1", "2"), "out"),
      /^date is "2026-05-04"; expected what leaves the rest standing/,
    ],
    [
      "that takes a coupon with looks out of the plan",
      [out, seen],
      said("new", { kind: "plan", plan: { ...plan, places: plan.places.slice(1) } }, "plan"),
      /^plan\.places .* something was done to the coupons already/,
    ],
  ])("%s is refused", (_what, given, added, words) => expect(refusal(given, added)).toThrow(words));

  test("a second plan has to say which it replaces", () =>
    expect(refusal([], said("new", { kind: "plan", plan }))).toThrow(/^corrects is null; expected the plan/));
});

describe("a trial that comes in whole", () => {
  test("is held against the same rules", () => {
    expect(() => requireTrial(trial(out, said("seen", look("1", on("05-03")))))).not.toThrow();
    expect(() => requireTrial(trial(out, said("seen", look("1", on("04-03")))))).toThrow(/^when.date is/);
    expect(() => requireTrial({ id: "t", name: "shed", observations: [out] })).toThrow(/a trial with a plan/);
  });
});

describe("a plan", () => {
  const place = plan.places[0]!;
  test.each<[string, Partial<Plan>, RegExp]>([
    [
      "two coupons with one number",
      { places: [place, { ...place, rack: null }] },
      /^places\[1\].coupon is "1"; expected a number that no other/,
    ],
    [
      "an unknown treatment",
      { places: [{ ...place, treatment: "tar" }] },
      /^places\[0\].treatment is "tar"; expected one of "oil", "wax"/,
    ],
    [
      "two coupons at one place of the rack",
      { places: [place, { ...place, coupon: "2" }] },
      /^places\[1\].rack is "row 1, column 1"; expected a free place on the rack; coupon 1/,
    ],
    [
      "one treatment in two spellings",
      { treatments: [...plan.treatments, { name: " WAX", role: "finish", route }] },
      /^treatments\[2\].name/,
    ],
    [
      "two controls",
      { treatments: plan.treatments.map((one) => ({ ...one, role: "control" as const })) },
      /^treatments\[1\].role/,
    ],
    [
      "a family against a control that is not there",
      {
        treatments: [plan.treatments[1]!],
        places: [],
        questions: [{ response: "rusted area", family: "control", margin: null, atDay: null }],
      },
      /^questions\[0\].family/,
    ],
    [
      "a factor that is none",
      { questions: [{ response: "time to first rust", family: "pairs", margin: 1, atDay: null }] },
      /^questions\[0\].margin is 1; expected a factor above 1/,
    ],
    ["an edge band that leaves no face", { edgeBandMm: 25 }, /^edgeBandMm is 25; expected less than half of .* 50 mm/],
  ])("with %s is refused", (_what, wrong, words) => {
    const added = said("new", { kind: "plan", plan: { ...plan, ...wrong } });
    expect(() => requireAcceptable({ id: "t", name: "shed", observations: [] }, added)).toThrow(words);
  });

  test("a margin of half a tape class is a size, not a factor", () => {
    const questions: Plan["questions"] = [{ response: "tape class", family: "pairs", margin: 0.5, atDay: null }];
    const added = said("new", { kind: "plan", plan: { ...plan, questions } });
    expect(() => requireAcceptable({ id: "t", name: "shed", observations: [] }, added)).not.toThrow();
  });
});

describe("tests on coupons", () => {
  const asking: Plan = {
    ...plan,
    questions: [
      { response: "strokes to breakthrough", place: "face", family: "pairs", margin: null, atDay: null },
      value("coating mass", "continuous", null),
      value("holds", "binary", null),
      value("loss", "area", null),
      value("looks", "ordinal", { best: 0, worst: 5 }),
    ],
  };
  function value(
    name: string,
    kind: "continuous" | "binary" | "area" | "ordinal",
    scale: { best: number; worst: number } | null,
  ): Plan["questions"][number] {
    const asked = { family: "pairs", margin: null, atDay: null } as const;
    return { response: "value", name, kind, better: "higher", unit: "", ratio: false, scale, ...asked };
  }
  const read = (name: string, number: number, coupon = "1"): ObservationBody => ({
    kind: "value",
    coupon,
    name,
    value: number,
    when: null,
    how: "bench",
    blind: true,
    note: "",
  });
  const worn = (leftStrokes: number, rightStrokes: number | null, place: "face" | "edge" | null): ObservationBody => ({
    kind: "wear test",
    coupon: "1",
    place,
    when: on("05-04"),
    leftStrokes,
    rightStrokes,
    blind: true,
    note: "",
  });
  const rusted = (leftDays: number, rightDays: number | null): ObservationBody => ({
    kind: "first rust",
    coupon: "1",
    leftDays,
    rightDays,
    blind: true,
    note: "",
  });
  const oven = (coupon: string): ObservationBody => ({ kind: "circumstance", coupon, name: "oven", value: 20 });
  const taking = (...bodies: ObservationBody[]) => {
    const observations = [said("plan", { kind: "plan", plan: asking })];
    for (const [at, body] of bodies.entries()) {
      const one = said(String(at), body);
      requireAcceptable({ id: "t", name: "shed", observations }, one);
      observations.push(one);
    }
  };

  test.each<[string, ObservationBody[]]>([
    ["a face and an edge of one coupon", [worn(10, 20, "face"), worn(5, 5, "edge"), worn(5, null, null)]],
    ["a test that was not worn through", [worn(60, null, "face")]],
    ["two values of one coupon under two names", [read("coating mass", -3.2), read("holds", 0), read("looks", 5)]],
    ["a time that is known exactly", [rusted(7, 7)]],
    ["one circumstance of two coupons", [oven("1"), oven("2")]],
  ])("takes %s", (_what, bodies) => expect(() => taking(...bodies)).not.toThrow());

  test.each<[string, ObservationBody[], RegExp]>([
    ["an interval that runs backwards", [worn(20, 10, "face")], /^rightStrokes is 10; expected 20 or more/],
    ["breakthrough at no stroke", [worn(0, 0, "face")], /^rightStrokes is 0; expected a number above 0/],
    ["a second wear test of a face", [worn(5, 9, "face"), worn(6, 9, "face")], /^coupon is "1".*wear test of the face/],
    ["rust before it was clean", [rusted(9, 3)], /^rightDays is 3/],
    ["a second time to first rust", [rusted(3, 9), rusted(3, 10)], /^coupon is "1".*time to first rust/],
    [
      "a value that nobody asks for",
      [read("gloss", 3)],
      /^name is "gloss"; expected a value that is asked for: coating/,
    ],
    ["half a yes", [read("holds", 0.5)], /^value is 0.5; expected 1 \(good\) or 0 \(bad\)/],
    ["more than the whole face", [read("loss", 120)], /^value is 120; expected a percentage/],
    ["a class beyond the scale", [read("looks", 6)], /^value is 6; expected a whole class from 0 \(best\) to 5/],
    ["a second mass", [read("coating mass", 3), read("coating mass", 4)], /^coupon is "1".*coating mass.*correct it/],
    ["a coupon that is not there", [read("coating mass", 3, "9")], /^coupon is "9"/],
    ["a second word on the oven", [oven("1"), oven("1")], /^coupon is "1".*oven/],
    ["a test before it was put out", [putOut("2026-05-05", "1"), worn(5, 9, "face")], /^when.date is "2026-05-04"/],
  ])("refuses %s", (_what, bodies, message) => expect(() => taking(...bodies)).toThrow(message));

  test.each<[string, Plan["questions"], RegExp]>([
    ["classes without ends", [value("looks", "ordinal", null)], /^questions\[0\].scale is null/],
    ["a scale of numbers", [value("mass", "continuous", { best: 5, worst: 0 })], /^questions\[0\].scale/],
    ["one name for two kinds", [value("a", "binary", null), value("a", "area", null)], /^questions\[1\].name is "a"/],
    [
      "a factor below 1",
      [{ ...asking.questions[0]!, margin: 0.5 }],
      /^questions\[0\].margin is 0.5; expected a factor/,
    ],
    [
      "a share above 1",
      [{ ...value("holds", "binary", null), margin: 2 }],
      /^questions\[0\].margin is 2; expected a diff/,
    ],
  ])("a plan with %s is refused", (_what, questions, message) => {
    const observations = [said("plan", { kind: "plan", plan: { ...plan, questions } })];
    expect(() => requireTrial({ id: "t", name: "shed", observations })).toThrow(message);
  });
});
