/** The tests of docs/coverage.md: one p of one trial without any difference. */
import type { SeededRandom } from "../src/core/numeric/random.ts";
import { anovaOneWay } from "../src/core/statistics/anova-one-way.ts";
import { blockAnova } from "../src/core/statistics/block-anova.ts";
import { boschloo } from "../src/core/statistics/boschloo.ts";
import { dunnettStepDown } from "../src/core/statistics/dunnett-step-down.ts";
import { fisherExact } from "../src/core/statistics/fisher-exact.ts";
import { friedmanExact } from "../src/core/statistics/friedman-exact.ts";
import { jonckheere } from "../src/core/statistics/jonckheere.ts";
import { kruskalWallis } from "../src/core/statistics/kruskal-wallis.ts";
import { logRankPermutation } from "../src/core/statistics/log-rank-permutation.ts";
import { permutationMeans } from "../src/core/statistics/permutation-means.ts";
import { rearrangementTest } from "../src/core/statistics/rearrangement-test.ts";
import { timeFactor } from "../src/core/statistics/time-factor.ts";
import { welchT } from "../src/core/statistics/welch-t.ts";
import { wilcoxonExact } from "../src/core/statistics/wilcoxon-exact.ts";
import { wilcoxonSignedRank } from "../src/core/statistics/wilcoxon-signed-rank.ts";
import { wilcoxonStratified } from "../src/core/statistics/wilcoxon-stratified.ts";
import { unlessRefused } from "./coverage-rows.ts";
import type { Draw } from "./invented-trials.ts";

export type UniformityRow = { test: string; layout: string; pOf: (draw: Draw, random: SeededRandom) => number };

const normals = (draw: Draw, n: number) => Array.from({ length: n }, draw.normal);
/** Grades: rounded and tied. */
const grades = (draw: Draw, n: number) => normals(draw, n).map((value) => Math.round(6 + value));
const tenths = (draw: Draw, n: number) => normals(draw, n).map((value) => Math.round(10 * value) / 10);
const looks = (draw: Draw, n: number) =>
  Array.from({ length: n }, () => {
    const left = 7 * Math.floor((30 * Math.sqrt(-Math.log(draw.fraction()))) / 7);
    return { leftDays: left, rightDays: left >= 84 ? null : left + 7 };
  });
const successes = (draw: Draw, n: number) => Array.from({ length: n }, draw.fraction).filter((one) => one < 0.6).length;
const each = <Item>(sizes: readonly number[], of: (n: number) => Item): Item[] => sizes.map(of);

export const uniformityRows: readonly UniformityRow[] = [
  {
    test: "rank sum, exact",
    layout: "8 against 8, no ties",
    pOf: (draw) => wilcoxonExact({ first: normals(draw, 8), second: normals(draw, 8) }).exactP,
  },
  {
    test: "rank sum, exact",
    layout: "3 against 8, grades with ties",
    pOf: (draw) => wilcoxonExact({ first: grades(draw, 3), second: grades(draw, 8) }).exactP,
  },
  {
    test: "rank sum in blocks, exact",
    layout: "4 blocks of 2 and 2",
    pOf: (draw) =>
      wilcoxonStratified({
        blocks: each([0, 1, 2, 3], (shift) => ({
          first: normals(draw, 2).map((x) => x + shift),
          second: normals(draw, 2).map((x) => x + shift),
        })),
        weights: "equal",
      }).exactP,
  },
  {
    test: "signed rank, exact",
    layout: "8 pairs",
    pOf: (draw) => wilcoxonSignedRank({ differences: normals(draw, 8) }).exactP,
  },
  {
    test: "means, permuted",
    layout: "6 against 6",
    pOf: (draw) => permutationMeans({ first: tenths(draw, 6), second: tenths(draw, 6) }).exactP,
  },
  {
    test: "log-rank of looks, permuted",
    layout: "2 groups of 6, weekly",
    pOf: (draw) => logRankPermutation({ groups: each([6, 6], (n) => looks(draw, n)), stratified: false }).exactP ?? 1,
  },
  {
    test: "log-rank of looks, permuted",
    layout: "3 groups of 4, weekly",
    pOf: (draw) =>
      logRankPermutation({ groups: each([4, 4, 4], (n) => looks(draw, n)), stratified: false }).exactP ?? 1,
  },
  {
    test: "largest difference from the control, rearranged",
    layout: "6 x 8, 499 drawn",
    pOf: (draw, random) =>
      rearrangementTest(
        normals(draw, 48).map((score, at) => ({ score, group: at % 6, block: "" })),
        { statistic: "control", seed: random.below(2 ** 31), draws: 499 },
      ).p,
  },
  {
    test: "largest difference of all pairs, rearranged",
    layout: "5 x 8 in blocks of 1, 499 drawn",
    pOf: (draw, random) =>
      rearrangementTest(
        normals(draw, 40).map((score, at) => ({ score, group: at % 5, block: `${Math.floor(at / 5)}` })),
        { statistic: "pairs", seed: random.below(2 ** 31), draws: 499 },
      ).p,
  },
  {
    test: "Kruskal and Wallis, exact",
    layout: "3 groups of 4, grades",
    pOf: (draw) => kruskalWallis({ groups: each([4, 4, 4], (n) => grades(draw, n)) }).exactP ?? 1,
  },
  {
    test: "Jonckheere, exact, two-sided",
    layout: "4 groups of 4, grades",
    pOf: (draw) => jonckheere({ groups: each([4, 4, 4, 4], (n) => grades(draw, n)) }).exactP,
  },
  {
    test: "Friedman, exact",
    layout: "6 blocks of 3",
    pOf: (draw) => friedmanExact({ rows: each([3, 3, 3, 3, 3, 3], (n) => normals(draw, n)) }).exactP ?? 1,
  },
  {
    test: "Fisher",
    layout: "12 and 12, 60 % survive",
    pOf: (draw) => {
      const [a, c] = [successes(draw, 12), successes(draw, 12)];
      return fisherExact({
        table: [
          [a, 12 - a],
          [c, 12 - c],
        ],
        confidence: 0.95,
      }).p;
    },
  },
  {
    test: "Boschloo",
    layout: "8 and 8, 60 % survive",
    pOf: (draw) =>
      boschloo({
        successes1: successes(draw, 8),
        trials1: 8,
        successes2: successes(draw, 8),
        trials2: 8,
        alternative: "twoSided",
      }).p,
  },
  { test: "Welch t", layout: "5 against 5", pOf: (draw) => welchT({ a: normals(draw, 5), b: normals(draw, 5) }).p },
  {
    test: "Welch t",
    layout: "3 against 8, the three with three times the scatter",
    pOf: (draw) => welchT({ a: normals(draw, 3).map((x) => 3 * x), b: normals(draw, 8) }).p,
  },
  {
    test: "analysis of variance",
    layout: "6 x 5",
    pOf: (draw) => anovaOneWay({ groups: each([5, 5, 5, 5, 5, 5], (n) => normals(draw, n)) }).p,
  },
  {
    test: "treatments in complete blocks",
    layout: "6 blocks of 4",
    pOf: (draw) => blockAnova({ rows: each([4, 4, 4, 4, 4, 4], (n) => normals(draw, n)) }).p,
  },
  {
    test: "Dunnett, step down, the smallest p",
    layout: "control and 5, 5 each",
    pOf: (draw) =>
      Math.min(
        ...dunnettStepDown({ control: normals(draw, 5), treatments: each([5, 5, 5, 5, 5], (n) => normals(draw, n)) })
          .adjustedP,
      ),
  },
  {
    test: "time factor, chi-square (decides nothing)",
    layout: "2 groups of 6, weekly",
    pOf: (draw) => {
      // Without a fit there is no p: counted as no difference found.
      return (
        unlessRefused(() =>
          timeFactor({
            distribution: "weibull",
            control: looks(draw, 6),
            treated: looks(draw, 6),
            confidence: 0.95,
          }),
        )?.p ?? 1
      );
    },
  },
];
