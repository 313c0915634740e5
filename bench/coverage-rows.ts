/** The intervals of docs/coverage.md: what they are of, and whether one of a simulated trial holds the truth. */
import { InputError } from "../src/core/input-error.ts";
import { binomialPmf } from "../src/core/numeric/binomial-distribution.ts";
import { exponentialMle } from "../src/core/statistics/exponential-mle.ts";
import { hodgesLehmann } from "../src/core/statistics/hodges-lehmann.ts";
import { hodgesLehmannPaired } from "../src/core/statistics/hodges-lehmann-paired.ts";
import { lognormalMle } from "../src/core/statistics/lognormal-mle.ts";
import { newcombeDifference } from "../src/core/statistics/newcombe-difference.ts";
import { clopperPearson, jeffreys } from "../src/core/statistics/proportion-interval.ts";
import { timeFactor } from "../src/core/statistics/time-factor.ts";
import { weibullMle } from "../src/core/statistics/weibull-mle.ts";
import { timeRatioModel } from "../src/core/statistics/weibull-time-ratios.ts";
import { type Counted, type ShareInterval, wilsonInterval } from "../src/core/statistics/wilson-interval.ts";
import type { Draw } from "./invented-trials.ts";

type Found = { trials: number; held: number; refused: number };
export type CoverageRow = {
  interval: string;
  layout: string;
  nominal: number;
  share: (trials: number, draw: Draw) => Found;
  /** In place of the simulation: all outcomes weighed by their chance, over a grid of truths. */
  exact?: () => { mean: number; least: number };
};

type Ends = { lower: number | null; upper: number | null };
const holds = ({ lower, upper }: Ends, truth: number) =>
  (lower === null || lower <= truth) && (upper === null || truth <= upper);

/** null where the data have no such fit. */
export function unlessRefused<Result>(run: () => Result): Result | null {
  try {
    return run();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** `one` gives the interval of one trial, null where there is no fit. */
function simulated(interval: string, layout: string, truth: number, one: (draw: Draw) => Ends | null): CoverageRow {
  return {
    interval,
    layout,
    nominal: 0.95,
    share: (trials, draw) => {
      const found: Found = { trials, held: 0, refused: 0 };
      for (let trial = 0; trial < trials; trial++) {
        const ends = one(draw);
        if (ends === null) found.refused++;
        else if (holds(ends, truth)) found.held++;
      }
      return found;
    },
  };
}

const weekly = (days: number) => {
  const left = 7 * Math.floor(days / 7);
  return left >= 84 ? { leftDays: 84, rightDays: null } : { leftDays: left, rightDays: left + 7 };
};
/** ln of a Weibull time with median 1. */
const weibullLog = (draw: Draw, shape: number) => Math.log(-Math.log(draw.fraction()) / Math.LN2) / shape;
const many = <Item>(n: number, item: (at: number) => Item): Item[] => Array.from({ length: n }, (_, at) => item(at));

/** One ratio of a trial: treatment 1 against the control, which truly are `ratio` apart; the others are like the control. */
function timeRatio(
  treatments: number,
  n: number,
  perBlock: number | null,
  ratio: number,
  blockSd: number,
): CoverageRow {
  const layout =
    perBlock === null
      ? `${treatments} x ${n}, free`
      : `${treatments} x ${n}, blocks of ${perBlock}, SD between blocks ${blockSd}`;
  return simulated("time ratio of a finding", `${layout}, ratio ${ratio}`, ratio, (draw) => {
    const blocks = many(n, () => (perBlock === null ? 0 : blockSd * draw.normal()));
    const times = many(treatments * n, (at) => {
      const [treatment, unit] = [Math.floor(at / n), at % n];
      const block = perBlock === null ? 0 : Math.floor(unit / perBlock);
      const days = 25 * (treatment === 1 ? ratio : 1) * Math.exp(blocks[block]! + weibullLog(draw, 2));
      return { ...weekly(days), treatment: String(treatment), block: String(block), unit: String(at) };
    });
    return timeRatioModel(times)?.ratio("1", "0", 0.95) ?? null;
  });
}

/** Life of one group of coupons by weekly looks; data without a maximum are refused, and counted so. */
function life(
  interval: string,
  n: number,
  truth: number,
  one: (observations: ReturnType<typeof weekly>[]) => Ends,
  logTime: (draw: Draw) => number,
): CoverageRow {
  return simulated(interval, `${n} coupons, median 25 d, weekly looks for 84 d`, truth, (draw) => {
    const observations = many(n, () => weekly(25 * Math.exp(logTime(draw))));
    return unlessRefused(() => one(observations));
  });
}

const weibullShapeTwo = (draw: Draw) => weibullLog(draw, 2);
const b10OfWeibull = 25 * (-Math.log(0.9) / Math.LN2) ** 0.5;
const b10OfLognormal = 25 * Math.exp(0.5 * -1.2815515655446004);

const lives = [8, 16, 32].flatMap((n) => [
  life(
    "Weibull B10, profile",
    n,
    b10OfWeibull,
    (observations) => {
      const fit = weibullMle({ observations, confidence: 0.95 });
      return { lower: fit.b10LowerDays, upper: fit.b10UpperDays };
    },
    weibullShapeTwo,
  ),
  life(
    "Weibull shape, profile",
    n,
    2,
    (observations) => {
      const fit = weibullMle({ observations, confidence: 0.95 });
      return { lower: fit.shapeLower, upper: fit.shapeUpper };
    },
    weibullShapeTwo,
  ),
  life(
    "lognormal B10, profile",
    n,
    b10OfLognormal,
    (observations) => {
      const fit = lognormalMle({ observations, confidence: 0.95 });
      return { lower: fit.b10LowerDays, upper: fit.b10UpperDays };
    },
    (draw) => 0.5 * draw.normal(),
  ),
  life(
    "exponential mean",
    n,
    25 / Math.LN2,
    (observations) => {
      const fit = exponentialMle({ observations, confidence: 0.95 });
      return { lower: fit.meanLowerDays, upper: fit.meanUpperDays };
    },
    (draw) => weibullLog(draw, 1),
  ),
]);

const plainTimeFactors = [5, 8].map((n) =>
  simulated("time factor, plain chi-square limits", `2 x ${n}, ratio 2, weekly looks`, 2, (draw) => {
    const group = (factor: number) => many(n, () => weekly(25 * factor * Math.exp(weibullLog(draw, 2))));
    return unlessRefused(() =>
      timeFactor({ distribution: "weibull", control: group(1), treated: group(2), confidence: 0.95 }),
    );
  }),
);

const shifts = [
  ...[
    [5, 5],
    [8, 8],
    [4, 9],
  ].map(([a, b]) =>
    simulated("Hodges-Lehmann shift", `${a} against ${b}, normal, shift 1`, 1, (draw) =>
      hodgesLehmann({
        first: many(a!, () => 1 + draw.normal()),
        second: many(b!, () => draw.normal()),
        confidence: 0.95,
      }),
    ),
  ),
  ...[6, 10].map((n) =>
    simulated("Hodges-Lehmann of pairs", `${n} pairs, normal, shift 1`, 1, (draw) =>
      hodgesLehmannPaired({ differences: many(n, () => 1 + draw.normal()), confidence: 0.95 }),
    ),
  ),
];

/** Chance that the interval holds p, over all numbers of successes; mean and least over p from 0.02 to 0.98. */
function shareCoverage(interval: string, trials: number, of: (counted: Counted) => ShareInterval): CoverageRow {
  const exact = () => {
    const ends = many(trials + 1, (successes) => of({ successes, trials, confidence: 0.95 }));
    const covered = many(193, (at) => {
      const p = 0.02 + at * 0.005;
      return ends.reduce((sum, one, successes) => (holds(one, p) ? sum + chance(successes, trials, p) : sum), 0);
    });
    return { mean: covered.reduce((sum, one) => sum + one, 0) / covered.length, least: Math.min(...covered) };
  };
  return { interval, layout: `${trials} coupons`, nominal: 0.95, share: notSimulated, exact };
}

const notSimulated = (): Found => ({ trials: 0, held: 0, refused: 0 });

function chance(successes: number, trials: number, p: number): number {
  return binomialPmf(successes, { n: trials, prob: p });
}

function newcombeCoverage(first: number, second: number): CoverageRow {
  const exact = () => {
    const outcomes = many((first + 1) * (second + 1), (at) => {
      const [successes1, successes2] = [at % (first + 1), Math.floor(at / (first + 1))];
      const ends = newcombeDifference({ successes1, trials1: first, successes2, trials2: second, confidence: 0.95 });
      return { successes1, successes2, ends };
    });
    const grid = many(19, (at) => 0.05 + 0.05 * at);
    const covered = grid.flatMap((p1) =>
      grid.map((p2) =>
        outcomes.reduce(
          (sum, { successes1, successes2, ends }) =>
            holds({ lower: ends.lower - 1e-12, upper: ends.upper + 1e-12 }, p1 - p2)
              ? sum + chance(successes1, first, p1) * chance(successes2, second, p2)
              : sum,
          0,
        ),
      ),
    );
    return { mean: covered.reduce((sum, one) => sum + one, 0) / covered.length, least: Math.min(...covered) };
  };
  return {
    interval: "Newcombe difference",
    layout: `${first} and ${second} coupons`,
    nominal: 0.95,
    share: notSimulated,
    exact,
  };
}

export const coverageRows: readonly CoverageRow[] = [
  ...[3, 5, 8, 12].flatMap((n) => [1, 3].map((ratio) => timeRatio(6, n, null, ratio, 0))),
  ...[1, 3].map((ratio) => timeRatio(2, 6, null, ratio, 0)),
  timeRatio(6, 6, 1, 1, 0.25),
  timeRatio(6, 8, 1, 3, 0.25),
  timeRatio(6, 8, 1, 3, 0.5),
  timeRatio(6, 6, 2, 3, 0.25),
  timeRatio(6, 6, 3, 3, 0.25),
  timeRatio(3, 6, 1, 3, 0.25),
  timeRatio(2, 8, 1, 3, 0.25),
  timeRatio(2, 6, 2, 3, 0.25),
  ...plainTimeFactors,
  ...lives,
  ...shifts,
  ...[8, 20].flatMap((n) => [
    shareCoverage("Clopper-Pearson", n, clopperPearson),
    shareCoverage("Wilson", n, wilsonInterval),
    shareCoverage("Jeffreys", n, jeffreys),
  ]),
  newcombeCoverage(8, 8),
  newcombeCoverage(4, 9),
];
