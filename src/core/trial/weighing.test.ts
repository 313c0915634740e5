import { describe, expect, test } from "vitest";
import type { ObservationBody } from "./trial-record.ts";
import { type Plan, trialRecord, type Weighing } from "./trial-record.ts";
import { trialResponse } from "./trial-responses.ts";
import type { WeighedAs, WeighedState } from "./weighed-as.ts";
import { balanceRefusal, requireWeighing, weighedResults, weighingGroups } from "./weighing.ts";

/** 50 x 25 x 3 mm: 2 (12.5 + 1.5 + 0.75) = 29.5 cm² all round. Coupons 1 and 2 of oil, 3 and 4 of wax. */
const plan = (as: WeighedAs): Plan => ({
  question: "How heavy does it get?",
  questions: [
    {
      response: "value",
      name: "coating mass",
      kind: "continuous",
      better: "higher",
      unit: "g/m²",
      ratio: false,
      scale: null,
      weighed: as,
      family: "control",
      margin: null,
      atDay: null,
    },
  ],
  treatments: [
    { name: "oil", role: "control", route: null },
    { name: "wax", role: "finish", route: null },
  ],
  couponSize: { lengthMm: 50, widthMm: 25, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [],
  places: ["1", "2", "3", "4"].map((coupon) => ({
    coupon,
    treatment: Number(coupon) < 3 ? "oil" : "wax",
    block: null,
    rack: null,
    spare: false,
  })),
  allocation: { how: "drawn", seed: 1 },
  invented: true,
});

type Weighed = [coupon: string, state: WeighedState, massG: number];

function record(
  weighed: Weighed[],
  { as = "gain", balanceMg = 1, others = [] as string[] } = {} as {
    as?: WeighedAs;
    balanceMg?: number;
    others?: string[];
  },
) {
  const bodies: ObservationBody[] = [
    { kind: "plan", plan: plan(as) },
    ...weighed.map(
      ([coupon, state, massG]): Weighing => ({
        kind: "weighing",
        coupon,
        with: others,
        state,
        massG,
        balanceMg,
        when: { date: "2026-05-01" },
        blind: true,
        note: "",
      }),
    ),
  ];
  const observations = bodies.map((body, at) => ({ id: String(at), recordedAt: "", by: "Ada", corrects: null, body }));
  return trialRecord({ id: "t", name: "weighed" }, observations);
}

describe("weighings of coupons of 29.5 cm²", () => {
  test.each<[WeighedAs, Weighed[], string]>([
    // 36.3 mg / 29.5 cm² = 12.3051 g/m²; / 0.77 = 15.98; / 0.6 = 20.5; u = 10 √2 / 29.5 = 0.479, 95 %: 0.94.
    [
      "gain",
      [
        ["1", "bare", 29],
        ["1", "coated", 29.0363],
      ],
      "Coating at least 16.0 g/m², up to 20.5 if the bath took much steel, ± 0.9 from the balance.",
    ],
    // 47.2 mg stripped of coupon 1; a bare coupon lost 2 mg: 45.2 mg / 29.5 cm² = 15.3 g/m².
    [
      "stripping",
      [
        ["4", "bare", 29],
        ["4", "stripped", 28.998],
        ["1", "bare", 29],
        ["1", "coated", 29.0363],
        ["1", "stripped", 28.9891],
      ],
      "Coating 15.3 g/m², ± 0.9 from the balance.",
    ],
    [
      "stripping",
      [
        ["1", "bare", 29],
        ["1", "coated", 29.0363],
        ["1", "stripped", 28.9891],
      ],
      "Coating 16.0 g/m², no bare blank was stripped beside it, ± 0.9 from the balance.",
    ],
    // 20 mg / 29.5 cm² = 6.8 g/m².
    [
      "oil after wiping",
      [
        ["1", "coated", 29.0363],
        ["1", "wiped", 29.0563],
      ],
      "Oil 6.8 g/m², ± 0.9 from the balance.",
    ],
    // 2 mg of oil are 0.68 g/m², within what the balance may be off.
    [
      "oil after days",
      [
        ["1", "coated", 29.0363],
        ["1", "drained", 29.0383],
      ],
      "Less oil than this balance can see, 0.9 g/m² on this area.",
    ],
    [
      "gain",
      [
        ["1", "bare", 29],
        ["1", "coated", 28.99],
      ],
      "These weighings cannot be: massAfterG is 28.99; expected at least the mass before, 29 g: of a coupon that lost mass the gain tells nothing.",
    ],
    ["gain", [["1", "bare", 29]], "To be weighed coated."],
  ])("%s", (as, weighed, sentence) => {
    expect(weighedResults(record(weighed, { as }), as).find(({ coupon }) => coupon === "1")?.sentence).toBe(sentence);
  });

  const gained: Weighed[] = [
    ["1", "bare", 29],
    ["1", "coated", 29.04],
  ];

  test("a balance of 10 mg is refused on one coupon, and does on two hung together", () => {
    const alone = { balanceMg: 10, areaCm2: 29.5, coupons: 1 };
    const sentence =
      "This balance cannot tell 5 from 15 g/m² on a coupon of this size: use a bigger one, or hang 2 together.";
    expect(balanceRefusal(alone)).toBe(sentence);
    expect(balanceRefusal({ ...alone, coupons: 2 })).toBeNull();
    expect(weighedResults(record(gained, { balanceMg: 10 }), "gain")).toEqual([
      { coupon: "1", standing: "refused", sentence },
    ]);
  });

  test("what a balance can tell goes into the findings, what it cannot is left out and said", () => {
    const responded = (balanceMg: number) => {
      const all = record(gained, { balanceMg });
      return trialResponse(all, all.plan.questions[0]!, new Set(["1", "2", "3", "4"]));
    };
    expect(responded(1).data.get("1")).toEqual({ value: expect.closeTo(40 / 2.95 / 0.77, 9) });
    expect(responded(10).data.size).toBe(0);
    expect(responded(10).notes.join()).toMatch(/^Coupon 1: This balance cannot tell/);
  });

  test("hung together they are one: twice the area, one value", () => {
    const all = record(
      [
        ["1", "bare", 58],
        ["1", "coated", 58.0726],
      ],
      { others: ["2"] },
    );
    expect(weighedResults(all, "gain").map(({ sentence }) => sentence)).toEqual([
      "Coating at least 16.0 g/m², up to 20.5 if the bath took much steel, ± 0.5 from the balance.",
    ]);
    expect(weighingGroups(all, 1)).toEqual([["1", "2"], ["3"], ["4"]]);
    expect(weighingGroups(all, 2)).toEqual([
      ["1", "2"],
      ["3", "4"],
    ]);
  });

  test("none is left over: three of one treatment, two at a time, hang together", () => {
    const { plan: drawn } = record([]);
    const five = ["1", "2", "3", "4", "5"].map((coupon) => ({ ...drawn.places[0]!, coupon }));
    const groups = (places: Plan["places"], together: number) =>
      weighingGroups({ ...record([]), plan: { ...drawn, places } }, together);
    expect(groups(five.slice(0, 3), 2)).toEqual([["1", "2", "3"]]);
    expect(groups(five, 2).map(({ length }) => length)).toEqual([3, 2]);
    expect(groups(five.slice(0, 1), 2)).toEqual([["1"]]);
  });

  test.each<[string, Partial<Weighing>]>([
    ["coupon", { coupon: "9" }],
    ["with[0]", { coupon: "2", with: ["3"] }],
    ["state", { coupon: "1", state: "coated" }],
    ["with", { coupon: "1", state: "stripped", with: ["2"] }],
  ])("%s is refused by name", (argument, part) => {
    const body: Weighing = { ...record(gained).weighings[0]!.body, state: "stripped", ...part };
    expect(() => requireWeighing(record(gained), body)).toThrow(argument);
  });
});
