import { describe, expect, test } from "vitest";
import { blankChance } from "./asked-form.ts";
import { chanceChoices, chanceWish, couponsTyped, saidByTrial, withEach, withSaid } from "./chance-form.ts";
import { startForm, type TrialForm } from "./trial-form.ts";

const start = startForm({ id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", seed: 7, length: "mm" });
const rust = (part: Partial<TrialForm> = {}): TrialForm => ({ ...start, ...part });

describe("what the curve still has to be told", () => {
  test("not the names, and not the question", () =>
    expect(chanceWish(rust({ controlMedian: "25" })).missing).toBeNull());
  test("when half of the control has rusted: nobody else can know", () =>
    expect(chanceWish(rust())).toMatchObject({ missing: "control", declared: { response: "time to first rust" } }));
  test("a number that is no number", () =>
    expect(chanceWish(rust({ blocks: "x", controlMedian: "25" })).missing).toBe("draft"));
});

describe("the difference to find", () => {
  const asking = (margin: string, size = "") =>
    chanceWish(
      rust({
        controlMedian: "25",
        asked: start.asked.map((one) => ({ ...one, margin, chance: { ...blankChance, size } })),
      }),
    ).plan?.size;
  test.each([
    ["the margin, when one is declared", "1.5", "", 1.5],
    ["twice as long without one", "", "", 2],
    ["or what was typed", "1.5", "3", 3],
  ])("%s", (_, margin, typed, size) => expect(asking(margin, typed)).toBe(size));
});

test("a shape of one's own stands in place of the usual 2", () => {
  const form = rust({ controlMedian: "25" });
  expect(chanceWish(form).plan?.assumed.shape).toBe(2);
  expect(chanceWish({ ...form, ...withSaid(form, { scatter: "1.3" }) }).plan?.assumed.shape).toBe(1.3);
  expect(chanceWish({ ...form, ...withSaid(form, { scatter: "x" }) }).missing).toBe("scatter");
});

describe("a plan of several questions", () => {
  const at = (response: string) => String(start.asked.findIndex((one) => one.response === response));
  const asked = start.asked.map((one) => ({ ...one, asked: one.response !== "grade" && one.response !== "value" }));
  const both = rust({ controlMedian: "25", asked });
  test("offers each, by what it compares", () =>
    expect(chanceChoices(both).map((one) => one.label)).toEqual([
      "Time to first rust, against the control",
      "Rusted area, against the control",
      "Tape class, against the control",
      "Strokes to breakthrough, against the control",
    ]));
  test("the first is simulated until another is chosen", () => {
    expect(chanceWish(both).plan?.declared.response).toBe("time to first rust");
    expect(chanceWish({ ...both, chanceOf: at("tape class") }).declared?.response).toBe("tape class");
    expect(chanceWish({ ...both, chanceOf: at("grade") }).declared?.response).toBe("time to first rust");
  });
  test("what is expected is kept for each by itself", () => {
    const area = { ...both, chanceOf: at("rusted area") };
    expect(chanceWish(area).missing).toBe("control");
    const said = { ...area, ...withSaid(area, { control: "5", size: "3", scatter: "0.6" }) };
    expect(chanceWish(said).plan).toMatchObject({ size: 3, assumed: { control: 5, areaLog10Sd: 0.6, shape: 2 } });
    expect(chanceWish({ ...said, chanceOf: "" }).plan).toMatchObject({ size: 2, assumed: { control: 25 } });
  });
  test("scatter of a measured value is typed in percent", () => {
    const value = start.asked.map((one) => ({ ...one, asked: one.response === "value", name: "gloss" }));
    const form = rust({ asked: value });
    const said = { ...form, ...withSaid(form, { control: "60", size: "5", scatter: "12" }) };
    expect(chanceWish(said).plan?.assumed.coefficientOfVariation).toBeCloseTo(0.12, 12);
  });
  test("scatter of a finish colour is typed in its own unit, and stands for dark and light finishes alike", () => {
    const asksLightness = (one: (typeof start.asked)[number]) => ({
      ...one,
      asked: one.response === "value",
      name: "how dark",
      weighed: "lightness" as const,
    });
    const form = rust({ asked: start.asked.map(asksLightness) });
    const expecting = { ...form, ...withSaid(form, { control: "28", size: "3" }) };
    expect(chanceWish(expecting).plan?.assumed.colourSd).toBe(1.5);
    const typed = { ...expecting, ...withSaid(expecting, { scatter: "2.5" }) };
    expect(chanceWish(typed).plan?.assumed.colourSd).toBe(2.5);
    expect(saidByTrial({ scatter: { colourSd: 2.5 }, control: 28, words: "" }).scatter).toBe("2.5");
  });
  test("a declared order is simulated as one", () => {
    const treatments = ["none", "short", "long"].map((name) => ({ ...start.treatments[1]!, name }));
    const form = rust({
      treatments,
      controlMedian: "25",
      asked: asked.map((one) => (one.asked ? { ...one, family: "order" as const } : one)),
    });
    expect(chanceWish(form).plan?.declared.order).toEqual(["none", "short", "long"]);
    expect(chanceChoices(form)[0]?.label).toBe("Time to first rust, in the order none → short → long");
  });
});

describe("coupons of each", () => {
  const coupons = (...typed: string[]) =>
    rust({ controlMedian: "25", treatments: start.treatments.map((one, at) => ({ ...one, coupons: typed[at]! })) });
  const plan = chanceWish(rust({ controlMedian: "25" })).plan!;
  test("the fewest of those compared; the bare witness does not count", () => {
    expect(couponsTyped(coupons("8", "8", "2"), plan)).toEqual({ each: 8, unequal: false });
    expect(couponsTyped(coupons("8", "6", "2"), plan)).toEqual({ each: 6, unequal: true });
    expect(couponsTyped(coupons("8", "", "2"), plan)).toBeNull();
  });
  test("the handle sets all but the witnesses", () =>
    expect(withEach(coupons("8", "6", "2"), plan, 10).treatments?.map((one) => one.coupons)).toEqual([
      "10",
      "10",
      "2",
    ]));
  test("a tape test with coupons of its own has its own number", () => {
    const form = rust({
      tapeCoupons: "4",
      asked: start.asked.map((one) => ({ ...one, asked: one.response === "tape class" })),
    });
    const tape = chanceWish({ ...form, ...withSaid(form, { control: "3" }) }).plan!;
    expect(couponsTyped(form, tape)).toEqual({ each: 4, unequal: false });
    expect(withEach(form, tape, 7)).toEqual({ tapeCoupons: "7" });
  });
});

describe("scatter of a former trial", () => {
  const lent = {
    scatter: { shape: 2.4, blockLogSd: 0 },
    control: 19.3,
    words: 'Scatter from "shed", 12 units: Weibull shape 2.4.',
  };
  const form = rust();
  const taken = { ...form, ...withSaid(form, saidByTrial(lent)) };
  test("stands in the fields, and is simulated", () =>
    expect(chanceWish(taken).plan?.assumed).toMatchObject({ control: 19.3, shape: 2.4, blockLogSd: 0 }));
  test("typed over, it is no longer that trial's", () => {
    const typed = { ...taken, ...withSaid(taken, { scatter: "2" }) };
    expect(typed.asked[0]?.chance).toEqual({ control: "19.3", size: "", scatter: "2" });
    expect(chanceWish(typed).plan?.assumed.blockLogSd).toBe(0.25);
  });
  test("another difference to find leaves it as it is", () => {
    const other = { ...taken, ...withSaid(taken, { size: "3" }) };
    expect(other.asked[0]?.chance?.from).toBe(lent.words);
  });
});
