/**
 * The demonstration shop: a riverside workshop that forges hedge-laying tools. Invented from end to end, and it says so.
 *
 * Each trial is a draft for the lot, the days on which its coupons truly rusted, and what happened on the way. The five
 * verdicts all occur in it, for the reasons they occur in life: one pot of wax for six coupons is one unit, and says nothing.
 */
import type { PlanDraft } from "../../api/plan.ts";
import type { RouteStep } from "../../core/trial/trial-record.ts";
import type { SteelFinish } from "./steel-piece.ts";

const alone = (name: string): RouteStep => ({ name, treated: "alone" });
const together = (name: string): RouteStep => ({ name, treated: "together" });

const clean = [
  together("alkaline clean, 60 °C"),
  alone("water break"),
  together("acid activation"),
  together("cold rinse"),
];
const phosphate = [
  ...clean,
  together("manganese phosphate, 94-96 °C, 15 min"),
  together("hot rinse"),
  together("boil, 5 min"),
];
const emulsionDip = alone("emulsion oil, single dip");

const lookDays = [1, 2, 4, 7, 10, 14, 21, 28, 42, 56];
const couponSize = { lengthMm: 100, widthMm: 60, thicknessMm: 3 };
const common = { couponSize, edgeBandMm: 5, rustThresholdPercent: 0.01, rackColumns: 6, sparesOfEach: 0 };

export type DemoTreatment = {
  /** Day on which each coupon truly rusted, dealt to its coupons in the order of their blocks. */
  rustedOnDay: number[];
  finish: SteelFinish;
};

export const fenceTrial = {
  name: "Which after-treatment keeps billhooks clean",
  site: "rack by the river",
  startedDaysAgo: 63,
  closed: true,
  draft: {
    ...common,
    question:
      "Which after-treatment on manganese phosphate keeps a billhook clean longest on an open rack by the river?",
    questions: [
      { response: "time to first rust", family: "control", margin: 1.5, atDay: null },
      { response: "rusted area", family: "control", margin: 2, atDay: 28 },
    ],
    treatments: [
      { name: "emulsion oil, no finish", role: "control", route: [...clean, emulsionDip], coupons: 6 },
      { name: "phosphate, dry", role: "finish", route: phosphate, coupons: 6 },
      { name: "phosphate + emulsion oil", role: "finish", route: [...phosphate, emulsionDip], coupons: 6 },
      {
        name: "phosphate + spray oil",
        role: "finish",
        route: [...phosphate, alone("water-displacing spray oil, one coupon at a time")],
        coupons: 6,
      },
      {
        name: "phosphate + melted wax",
        role: "finish",
        route: [...phosphate, together("melted wax, one pot")],
        coupons: 6,
      },
      { name: "bare steel", role: "witness", route: clean, coupons: 3 },
    ],
    blocks: 3,
    lookDays,
    seed: 1871,
  } satisfies PlanDraft,
  truth: {
    "emulsion oil, no finish": { rustedOnDay: [2.4, 3.1, 1.6, 3.8, 2.7, 5.1], finish: "bare steel" },
    "phosphate, dry": { rustedOnDay: [2.9, 4.6, 3.4, 2.2, 5.5, 3.7], finish: "phosphate dry" },
    "phosphate + emulsion oil": { rustedOnDay: [6.1, 3.6, 4.8, 8.2, 5.2, 9.5], finish: "phosphate oiled" },
    "phosphate + spray oil": { rustedOnDay: [19, 25.5, 17.2, 30, 23, 38], finish: "phosphate oiled" },
    "phosphate + melted wax": { rustedOnDay: [40, 52, 70, 47, 90, 55], finish: "phosphate waxed" },
    "bare steel": { rustedOnDay: [0.3, 0.4, 0.3], finish: "bare steel" },
  } satisfies Record<string, DemoTreatment>,
};

const primed = (passes: string) => [...phosphate, alone(`etch primer, ${passes}`)];

export const primerTrial = {
  name: "How many passes of etch primer hold",
  site: "bench by the window",
  startedDaysAgo: 30,
  draft: {
    ...common,
    question: "Do three thin passes of etch primer hold as well as two, and what does one heavy pass lose?",
    questions: [{ response: "tape class", family: "control", margin: 2, atDay: null }],
    treatments: [
      { name: "two thin passes", role: "control", route: primed("two thin passes"), coupons: 6 },
      { name: "three thin passes", role: "finish", route: primed("three thin passes"), coupons: 6 },
      { name: "one heavy pass", role: "finish", route: primed("one heavy pass"), coupons: 6 },
    ],
    blocks: 3,
    lookDays: [14],
    seed: 611,
  } satisfies PlanDraft,
  /** Cross-cut classes, dealt like the days above. */
  tapeClasses: {
    "two thin passes": ["4B", "5B", "4B", "4B", "5B", "4B"],
    "three thin passes": ["5B", "4B", "4B", "5B", "4B", "4B"],
    "one heavy pass": ["1B", "2B", "1B", "2B", "0B", "1B"],
  } as const,
};

export const shedTrial = {
  name: "Oil or wax in the unheated shed",
  site: "unheated shed",
  startedDaysAgo: 7,
  closed: false,
  draft: {
    ...common,
    question: "In the unheated shed, does paste wax keep plane irons clean longer than emulsion oil?",
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    treatments: [
      { name: "phosphate + emulsion oil", role: "control", route: [...phosphate, emulsionDip], coupons: 6 },
      {
        name: "phosphate + paste wax",
        role: "finish",
        route: [...phosphate, alone("paste wax, wiped cold")],
        coupons: 6,
      },
    ],
    blocks: 3,
    lookDays: [1, 2, 4, 7, 10, 14, 21, 28],
    seed: 40,
  } satisfies PlanDraft,
  truth: {
    "phosphate + emulsion oil": { rustedOnDay: [3.2, 9, 12, 5, 17, 11], finish: "phosphate oiled" },
    "phosphate + paste wax": { rustedOnDay: [14, 26, 31, 19, 40, 22], finish: "phosphate waxed" },
  } satisfies Record<string, DemoTreatment>,
};
