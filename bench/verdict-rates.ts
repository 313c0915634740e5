/**
 * How often each verdict comes, in invented trials whose truth is known: the rules of the findings, held against themselves.
 *
 * Six treatments, treatment 0 the control. Times: Weibull shape 2, control scale 30 days, weekly looks for 12 weeks. Values: normal on
 * the log scale, SD 0.35. Areas: log10 SD 0.4, median 3 %, seen from 0.01 %. Classes: normal SD 1 around 6, rounded and cut to 0..10;
 * binary: 60 % survive with the control. Blocks: log SD 0.25. "factor 2" means that treatments 1 to 3 are twice as good.
 *
 *   npx rolldown bench/verdict-rates.ts --platform node --file verdict-rates.mjs
 *   node verdict-rates.mjs [--trials 200] [--draws 499] [--seed 20261] [--only "time, free, factor 3"] [--treatments 6]
 *
 * Prints a Markdown table: percent shown / suggested / not told apart / equivalent / cannot be told, and FW, the percent of trials with
 * a "shown" where there is no difference.
 */
import { parseArgs } from "node:util";
import { normalQuantile } from "../src/core/numeric/normal-distribution.ts";
import { seededRandom } from "../src/core/numeric/random.ts";
import { answerQuestion } from "../src/core/trial/answer-question.ts";
import { type Finding, type ResponseKind, verdicts } from "../src/core/trial/finding.ts";
import type { Question, QuestionCoupon } from "../src/core/trial/question.ts";

const { values: options } = parseArgs({
  options: {
    trials: { type: "string", default: "200" },
    draws: { type: "string", default: "499" },
    seed: { type: "string", default: "20261" },
    treatments: { type: "string", default: "6" },
    only: { type: "string", default: "" },
  },
});
const trials = Number(options.trials);
const draws = Number(options.draws);
const treatments = Array.from({ length: Number(options.treatments) }, (_, at) =>
  at === 0 ? "control" : `finish ${at}`,
);

type Allocation = "free" | "blocks of 1" | "blocks of 2";
type Truth = { name: string; factors: number[]; controlScatter: number };
type Row = { kind: ResponseKind; allocation: Allocation; truth: Truth; n: number };

const some = (factor: number) => treatments.map((_, at) => (at >= 1 && at <= 3 ? factor : 1));
const truths: Truth[] = [
  { name: "no difference", factors: some(1), controlScatter: 1 },
  { name: "factor 2", factors: some(2), controlScatter: 1 },
  { name: "factor 3", factors: some(3), controlScatter: 1 },
  { name: "control worst", factors: treatments.map((_, at) => (at === 0 ? 1 : 6)), controlScatter: 1 },
  { name: "no difference, control SD x3", factors: some(1), controlScatter: 3 },
  { name: "factor 3, control SD x3", factors: some(3), controlScatter: 3 },
];

const rows: Row[] = (["time", "continuous", "area", "ordinal", "binary"] as const).flatMap((kind) =>
  (["free", "blocks of 1", "blocks of 2"] as const).flatMap((allocation) =>
    truths
      .filter((truth) => kind === "continuous" || truth.controlScatter === 1)
      .flatMap((truth) =>
        (allocation === "blocks of 2" ? [4, 6, 8] : [1, 3, 5, 8]).map((n) => ({ kind, allocation, truth, n })),
      ),
  ),
);

const titleOf = ({ kind, allocation, truth, n }: Row) => `${kind}, ${allocation}, ${truth.name}, n ${n}`;

type Draw = { normal: () => number; fraction: () => number };

function question(row: Row, draw: Draw, seed: number): Question {
  const perBlock = row.allocation === "free" ? row.n : row.allocation === "blocks of 1" ? 1 : 2;
  const blockEffects = Array.from({ length: row.n / perBlock }, () =>
    row.allocation === "free" ? 0 : 0.25 * draw.normal(),
  );
  const coupons = treatments.flatMap((treatment, at) =>
    Array.from({ length: row.n }, (_, unit): QuestionCoupon => {
      const block = Math.floor(unit / perBlock);
      return {
        coupon: `${at}-${unit}`,
        treatment,
        block: row.allocation === "free" ? null : `block ${block}`,
        applications: { batch: null },
        circumstances: {},
        deviation: null,
        datum: datum(row, { log: Math.log(row.truth.factors[at]!) + blockEffects[block]!, isControl: at === 0 }, draw),
      };
    }),
  );
  return { ...asked[row.kind], kind: row.kind, coupons, seed };
}

const common = {
  ratio: false,
  detectionLimitPercent: null,
  scale: null,
  family: "control",
  control: "control",
  treatments,
  witnesses: [],
  routes: null,
  randomised: true,
  blind: true,
  declared: true,
  treatedSeparately: "confirmed",
  notes: [],
} as const;
type Asked = Omit<Question, "kind" | "coupons" | "seed">;
const asked: Record<ResponseKind, Asked> = {
  time: {
    ...common,
    witnesses: [],
    notes: [],
    response: "time to first rust",
    unit: "days",
    better: "higher",
    margin: 1.5,
  },
  continuous: {
    ...common,
    witnesses: [],
    notes: [],
    response: "coating mass",
    unit: "g/m²",
    better: "higher",
    margin: 1.5,
    ratio: true,
  },
  area: {
    ...common,
    witnesses: [],
    notes: [],
    response: "rusted area",
    unit: "%",
    better: "lower",
    margin: 2,
    detectionLimitPercent: 0.01,
  },
  ordinal: {
    ...common,
    witnesses: [],
    notes: [],
    response: "grade",
    unit: "classes",
    better: "higher",
    margin: 1,
    scale: { best: 10, worst: 0 },
  },
  binary: { ...common, witnesses: [], notes: [], response: "survived", unit: "", better: "higher", margin: 0.2 },
};

function datum(row: Row, { log, isControl }: { log: number; isControl: boolean }, draw: Draw): QuestionCoupon["datum"] {
  switch (row.kind) {
    case "time": {
      const days = 30 * Math.exp(log) * (-Math.log(draw.fraction())) ** (1 / 2);
      const left = 7 * Math.floor(days / 7);
      return left >= 84 ? { left: 84, right: null } : { left, right: left + 7 };
    }
    case "continuous":
      return { value: 5 * Math.exp(log + 0.35 * (isControl ? row.truth.controlScatter : 1) * draw.normal()) };
    case "area":
      return { value: Math.min(100, 3 * Math.exp(-log) * 10 ** (0.4 * draw.normal())) };
    case "ordinal":
      return { value: Math.min(10, Math.max(0, Math.round(6 + 2 * log + draw.normal()))) };
    case "binary":
      return { value: draw.fraction() < 1 - 0.4 * Math.exp(-2 * log) ? 1 : 0 };
  }
}

type Cell = Record<Finding["verdict"], number>;
const emptyCell = (): Cell => Object.fromEntries(verdicts.map((verdict) => [verdict, 0])) as Cell;

function rates(row: Row, seed: number): string {
  const random = seededRandom(seed);
  const fraction = () => (random.next() * 2 ** 53 + 0.5) / 2 ** 53;
  const draw = { fraction, normal: () => normalQuantile(fraction()) };
  const cells = {
    differControl: emptyCell(),
    alikeControl: emptyCell(),
    differOthers: emptyCell(),
    alikeOthers: emptyCell(),
  };
  let falseShown = 0;
  for (let trial = 0; trial < trials; trial++) {
    const { findings } = answerQuestion(question(row, draw, trial + 1), { draws });
    let wrong = false;
    for (const finding of findings) {
      const differ = factorOf(row, finding.first) !== factorOf(row, finding.second);
      const cell = cells[`${differ ? "differ" : "alike"}${finding.second === "control" ? "Control" : "Others"}`];
      cell[finding.verdict]++;
      if (!differ && finding.verdict === "shown") wrong = true;
    }
    if (wrong) falseShown++;
  }
  const shown = Object.values(cells).map(percents).join(" | ");
  return `| ${row.kind}, ${row.allocation} | ${row.truth.name} | ${row.n} | ${shown} | ${((100 * falseShown) / trials).toFixed(1)} |`;
}

function factorOf({ truth }: Row, treatment: string): number {
  return truth.factors[treatments.indexOf(treatment)]!;
}

function percents(cell: Cell): string {
  const all = verdicts.reduce((sum, verdict) => sum + cell[verdict], 0);
  return all === 0 ? "-" : verdicts.map((verdict) => Math.round((100 * cell[verdict]) / all)).join(" ");
}

console.log(
  "| response, allocation | truth | n | against control, differ | against control, alike | among others, differ | among others, alike | FW |",
);
console.log("|---|---|---|---|---|---|---|---|");
for (const row of rows) if (titleOf(row).includes(options.only)) console.log(rates(row, Number(options.seed)));
