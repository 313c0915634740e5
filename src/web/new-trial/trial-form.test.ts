import { describe, expect, test } from "vitest";
import { planDraft } from "../../api/plan.ts";
import { daysTyped, draftOf, startForm, type TrialForm } from "./trial-form.ts";

const begun = (part: Partial<TrialForm> = {}): TrialForm => {
  const start = startForm({ id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", seed: 7, length: "mm" });
  const treatments = start.treatments.map((one, at) => ({
    ...one,
    name: ["oiled, no finish", "phosphated", "bare"][at]!,
  }));
  return { ...start, question: "Does phosphate help under oil?", looks: "1, 2, 4", treatments, ...part };
};
const pointers = (form: TrialForm) => draftOf(form).problems.map((one) => one.pointer);

describe("what was typed becomes a draft", () => {
  test("a form filled in as it starts is what the server takes", () => {
    const { draft } = draftOf(begun());
    expect(planDraft.safeParse(draft).success).toBe(true);
    expect(draft).toMatchObject({ blocks: 3, edgeBandMm: 5, couponSize: { lengthMm: 150 }, lookDays: [1, 2, 4] });
  });
  test("inches are stored in mm", () =>
    expect(draftOf(begun({ lengthUnit: "in", couponLength: "4", edgeBand: "0.25" })).draft).toMatchObject({
      couponSize: { lengthMm: 101.6 },
      edgeBandMm: 6.35,
    }));
  test("no margin typed is no margin: none is put in silently", () =>
    expect(draftOf(begun()).draft?.questions).toEqual([
      { response: "time to first rust", family: "control", margin: null, atDay: null },
    ]));
  test("empty step rows are left out", () => {
    const treatments = begun().treatments.map((one) => ({
      ...one,
      route: [{ name: "  ", treated: "alone" as const }],
    }));
    expect(draftOf(begun({ treatments })).draft?.treatments[0]?.route).toEqual([]);
  });

  test("a plain layout says nothing of batches, small blocks, a spread draw or coupons for tests", () =>
    expect(Object.keys(draftOf(begun()).draft!)).not.toEqual(
      expect.arrayContaining([expect.stringMatching(/batchesOfEach|blockSize|spread|testCoupons/)]),
    ));
  test("batches are asked for where a step is done together and not by all", () => {
    const treatments = begun().treatments.map((one, at) => ({
      ...one,
      route: at === 1 ? [{ name: "phosphate", treated: "together" as const }] : [],
    }));
    expect(draftOf(begun({ batchesOfEach: "4" })).draft).not.toHaveProperty("batchesOfEach");
    expect(draftOf(begun({ batchesOfEach: "4", treatments })).draft).toMatchObject({ batchesOfEach: 4 });
  });
  test("coupons for tests and a spread draw", () =>
    expect(draftOf(begun({ tapeCoupons: "3", strippedCoupons: "2", spread: true })).draft).toMatchObject({
      testCoupons: [
        { test: "tape test", ofEach: 3 },
        { test: "weighing by stripping", ofEach: 2 },
      ],
      spread: "no treatment all on one edge",
    }));
  test("an order is that of the compared treatments in the form", () => {
    const asked = begun().asked.map((one) => ({ ...one, family: "order" as const }));
    expect(draftOf(begun({ asked })).draft?.questions[0]).toMatchObject({
      family: "pairs",
      order: ["oiled, no finish", "phosphated"],
    });
  });

  test.each<[string, Partial<TrialForm>, string]>([
    ["an empty question", { question: " " }, "/draft/question"],
    ["half a number", { blocks: "x" }, "/draft/blocks"],
    ["a length of two meanings", { couponLength: "1,500" }, "/draft/couponSize/lengthMm"],
    ["no look", { looks: "" }, "/draft/lookDays"],
    ["nothing asked", { asked: [] }, "/draft/questions"],
    [
      "a nameless treatment",
      { treatments: [{ name: "", role: "finish", coupons: "6", route: [] }] },
      "/draft/treatments/0/name",
    ],
  ])("%s is named", (_what, part, pointer) => expect(pointers(begun(part))).toContain(pointer));
});

describe("days of looks as typed", () => {
  test.each([
    ["1, 2,4 7", [1, 2, 4, 7]],
    ["7 1 1", [1, 7]],
    ["", []],
    ["1, two", null],
  ])("%j", (typed, days) => expect(daysTyped(typed)).toEqual(days));
});
