import { describe, expect, test } from "vitest";
import { between, type SmallCoupon, smallQuestion } from "../../../tests/small-question.ts";
import type { Question } from "./question.ts";
import { trialLayout, unitsOfReplication } from "./units-of-replication.ts";

/** One coupon for each name of a batch; null: it skips those steps. */
const batches = (...names: (string | null)[]): SmallCoupon[] =>
  names.map((batch) => between(7, 14, { applications: { batch } }));

const recorded = { treatedSeparately: "recorded" } as const;

function unitCounts(question: Question, first: string, second: string): number[] {
  const units = unitsOfReplication(question, trialLayout(question), {
    treatments: [first, second],
    pairs: [[first, second]],
  });
  return [first, second].map((name) => units.filter((unit) => unit.treatment === name).length);
}

describe("units of replication in a plain table", () => {
  test.each<[string, SmallCoupon[], SmallCoupon[], number[], string | null]>([
    ["no batches: each coupon", batches(null, null, null), batches(null, null), [3, 2], null],
    ["one dip each", batches("a", "a", "a"), batches("c", "c"), [1, 1], "each has one"],
    ["one dip beside untreated: the coupons", batches("a", "a", "a"), batches(null, null), [3, 2], "one against none"],
    ["two dips beside untreated: the dips", batches("a", "a", "b"), batches(null, null), [2, 2], null],
    ["one dip against two", batches("a", "a"), batches("c", "d", "d"), [1, 2], null],
    ["single dips", batches("a", "b", "c"), batches("d", "e"), [3, 2], null],
    ["the same bath run for both", batches("a", "a", "a"), batches("a", "a"), [3, 2], null],
    ["two runs with both in each", batches("a", "a", "b"), batches("a", "b", "b"), [3, 3], null],
    [
      "both kinds: the shared ones are single coupons",
      batches("a", "a", "b", "b"),
      batches("a", "c", "c"),
      [3, 2],
      null,
    ],
    ["one coupon each", batches("a"), batches("b"), [1, 1], null],
  ])("%s", (_, treated, control, counts, batch) => {
    const question = smallQuestion({ A: treated, control }, recorded);
    expect(unitCounts(question, "A", "control")).toEqual(counts);
    expect(trialLayout(question).pair("control", "A").batch?.case ?? null).toBe(batch);
  });

  test("a set of treatments takes the coarsest units that its compared pairs ask for", () => {
    const question = smallQuestion(
      { A: batches("a", "a", "b"), B: batches("a", "a", "b"), control: batches(null, null) },
      recorded,
    );
    const layout = trialLayout(question);
    const count = (pairs: [string, string][]) =>
      unitsOfReplication(question, layout, { treatments: ["A", "B", "control"], pairs }).length;
    // Among themselves A and B share their runs: 3 + 3 + 2 coupons. Against the control the runs count: 2 + 2 + 2.
    expect(count([["A", "B"]])).toBe(8);
    expect(
      count([
        ["A", "control"],
        ["B", "control"],
      ]),
    ).toBe(6);
    expect(
      count([
        ["A", "control"],
        ["A", "B"],
      ]),
    ).toBe(2 + 3 + 2);
  });

  test("a dip that lies in several blocks has no block", () => {
    const inBlocks = (batch: string): SmallCoupon[] =>
      ["1", "2"].map((block) => between(7, 14, { block, applications: { batch } }));
    const question = smallQuestion(
      { A: [...inBlocks("a"), ...inBlocks("b")], control: [...inBlocks("c"), ...inBlocks("d")] },
      recorded,
    );
    const units = unitsOfReplication(question, trialLayout(question), {
      treatments: ["A", "control"],
      pairs: [["A", "control"]],
    });
    expect(units.map((unit) => unit.block)).toEqual(["", "", "", ""]);
  });

  test("inspectors that never shared a treatment become the units, as batches would", () => {
    const seenBy = (...names: string[]): SmallCoupon[] =>
      names.map((inspector) => between(7, 14, { circumstances: { inspector } }));
    const question = smallQuestion({ A: seenBy("Ann", "Ann", "Bo"), control: seenBy("Cy", "Di", "Di") });
    expect(unitCounts(question, "A", "control")).toEqual([2, 2]);
    const shared = smallQuestion({ A: seenBy("Ann", "Ann", "Bo"), control: seenBy("Ann", "Di", "Di") });
    expect(unitCounts(shared, "A", "control")).toEqual([3, 3]);
  });
});

describe("units of replication with routes", () => {
  const through = (...runs: Record<string, string | null>[]): SmallCoupon[] =>
    runs.map((applications) => between(7, 14, { applications }));
  const routes = { finish: ["phosphate", "oil"], wax: ["phosphate", "wax"], control: ["oil"] };
  const question = smallQuestion(
    {
      finish: through(
        { phosphate: "run 1", oil: "dip 1" },
        { phosphate: "run 1", oil: "dip 2" },
        { phosphate: "run 1", oil: "dip 3" },
      ),
      wax: through({ phosphate: "run 1", wax: "coat" }, { phosphate: "run 1", wax: "coat" }),
      control: through({ oil: "dip 1" }, { oil: "dip 1" }),
    },
    { ...recorded, routes },
  );

  test("oiled one by one after a shared bath: each coupon, where only the oil differs; one coat of wax is one unit", () =>
    expect(unitCounts(question, "finish", "wax")).toEqual([3, 1]));

  test("one bath run beside coupons that skip it: the coupons, in this one batch; the shared oil dip groups nothing", () => {
    expect(unitCounts(question, "finish", "control")).toEqual([3, 2]);
    expect(trialLayout(question).pair("finish", "control").batch).toEqual({
      case: "one against none",
      step: "phosphate",
      treatment: "finish",
    });
  });

  test("two finishes that differ in bath and oil: the bath run is the unit, however singly they were oiled", () => {
    const both = smallQuestion(
      {
        finish: through({ phosphate: "run 1", oil: "dip 1" }, { phosphate: "run 1", oil: "dip 2" }),
        black: through({ black: "run 2", wax: "coat 1" }, { black: "run 3", wax: "coat 2" }),
      },
      { ...recorded, routes: { finish: ["phosphate", "oil"], black: ["black", "wax"] } },
    );
    expect(unitCounts(both, "finish", "black")).toEqual([1, 2]);
  });

  test("a shared step done in dips of their own: the dips are the units", () => {
    const apart = smallQuestion(
      {
        finish: through({ phosphate: "a", oil: "1" }, { phosphate: "b", oil: "1" }, { phosphate: "c", oil: "2" }),
        control: through({ oil: "3" }, { oil: "4" }, { oil: "4" }),
      },
      { ...recorded, routes },
    );
    expect(unitCounts(apart, "finish", "control")).toEqual([2, 2]);
  });

  test("where a differing step was not recorded, separate treatment is assumed", () => {
    const silent = smallQuestion(
      { finish: through({ phosphate: "run 1" }, {}), control: through({}, {}) },
      { ...recorded, routes },
    );
    expect(trialLayout(silent).pair("finish", "control").assumed).toBe(true);
    expect(trialLayout(question).pair("finish", "control").assumed).toBe(false);
  });
});
