/**
 * What a reader may want to look at beside the answer: other tests, the distribution of what is left over, how much hangs on one unit.
 * Computed on demand; nothing here decides a verdict, so that nobody can choose the test that pleases.
 */
import { InputError } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { boschloo } from "../statistics/boschloo.ts";
import { cliffsDelta } from "../statistics/cliffs-delta.ts";
import { cochranMantelHaenszel } from "../statistics/cochran-mantel-haenszel.ts";
import { freemanHalton } from "../statistics/freeman-halton.ts";
import { friedmanExact } from "../statistics/friedman-exact.ts";
import { grubbs } from "../statistics/grubbs.ts";
import { kruskalWallis } from "../statistics/kruskal-wallis.ts";
import { gamesHowell } from "../statistics/pairs-of-means.ts";
import { shapiroWilk } from "../statistics/shapiro-wilk.ts";
import { numberWords } from "./effect-words.ts";
import type { Finding } from "./finding.ts";
import { type FittedModels, fittedModels } from "./fitted-models.ts";
import { leaveOneOutRange } from "./leave-one-out.ts";
import type { Question } from "./question.ts";
import { betterUpwards } from "./rank-effect.ts";
import { unitScores, unitValue } from "./unit-scores.ts";
import { trialLayout, type Unit } from "./units-of-replication.ts";

/** "Kruskal-Wallis: H 7.3 on 3 degrees of freedom, p 0.063" */
export type Detail = { name: string; says: string };
export type AnswerDetails = {
  whole: Detail[];
  comparisons: { first: string; second: string; details: Detail[] }[];
};

/** Whatever applies to this kind of response; what its data cannot give is left out. */
export function answerDetails(
  question: Question,
  findings: readonly Pick<Finding, "first" | "second">[],
): AnswerDetails {
  const fits = fittedModels(question, trialLayout(question));
  const groups = question.treatments.map((name) => fits.family.units.filter((unit) => unit.treatment === name));
  return {
    whole: wholeDetails(question, fits, groups),
    comparisons: findings.map(({ first, second }) => {
      const [one, other] = [first, second].map((name) => groups[question.treatments.indexOf(name)] ?? []);
      return { first, second, details: pairDetails(question, fits, { first, second, one: one!, other: other! }) };
    }),
  };
}

const pWords = (p: number): string => (p < 1e-4 ? "p below 0.0001" : `p ${Number(p.toPrecision(2))}`);

/** A method that refuses these data has nothing to say of them. */
function where(name: string, says: () => string | null): Detail[] {
  try {
    const said = says();
    return said === null ? [] : [{ name, says: said }];
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}

type Groups = readonly (readonly Unit[])[];

function wholeDetails(question: Question, fits: FittedModels, groups: Groups): Detail[] {
  switch (question.kind) {
    case "continuous":
      return [...normality(question, fits), ...farOut(question, groups)];
    case "binary":
      return where("Freeman-Halton", () =>
        pWords(freemanHalton({ table: groups.map((own) => outcomes(question, own)) }).p),
      );
    case "time":
    case "area":
    case "ordinal":
      return [...ranksOfAll(question, groups), ...ranksInBlocks(question, groups)];
  }
}

function normality({ treatments }: Question, { family: { value } }: FittedModels): Detail[] {
  const [first, second] = treatments;
  const residuals =
    first === undefined || second === undefined ? null : (value?.(first, second).fit?.residuals ?? null);
  if (residuals === null) return [];
  return where("Shapiro-Wilk", () => {
    const { w, p } = shapiroWilk({ values: residuals });
    return `what treatments and blocks leave over: W ${w.toFixed(3)}, ${pWords(p)}`;
  });
}

/** A value is never dropped for being far out, only for a cause that was written down. */
function farOut(question: Question, groups: Groups): Detail[] {
  return groups.flatMap((own) =>
    where("Grubbs", () => {
      const { index, g, pBonferroni } = grubbs({ values: own.map((unit) => unitValue(question, unit)), alpha: 0.05 });
      const coupons = own[index]!.coupons.map(({ coupon }) => coupon).join(", ");
      return `${own[0]!.treatment}: coupon ${coupons} lies farthest out, G ${g.toFixed(2)}, ${pWords(pBonferroni)}; it stays in`;
    }),
  );
}

/** The scores of the exact test: log-rank scores of times, ranks of all else. */
function scoresOf(question: Question, groups: Groups): number[][] {
  const scores = unitScores(question, groups.flat(), question.treatments);
  return question.treatments.map((_, group) => scores.filter((one) => one.group === group).map((one) => one.score));
}

function ranksOfAll(question: Question, groups: Groups): Detail[] {
  if (groups.length < 3) return [];
  return where("Kruskal-Wallis", () => {
    const { h, df, asymptoticP, exactP } = kruskalWallis({ groups: scoresOf(question, groups) });
    if (h === null || asymptoticP === null) return null;
    const how = exactP === null ? `${pWords(asymptoticP)} by chi-square` : `exact ${pWords(exactP)}`;
    return `blocks left aside: H ${h.toFixed(2)} on ${df} degrees of freedom, ${how}`;
  });
}

/** Where every block holds each treatment once. */
function ranksInBlocks(question: Question, groups: Groups): Detail[] {
  const blocks = [...new Set(groups.flat().map((unit) => unit.block))];
  const once = groups.every(
    (own) => own.length === blocks.length && new Set(own.map((unit) => unit.block)).size === blocks.length,
  );
  if (!once || groups.length < 3) return [];
  return where("Friedman", () => {
    const scores = unitScores(question, groups.flat(), question.treatments);
    const rows = blocks.map((block) =>
      question.treatments.map((_, group) => scores.find((one) => one.block === block && one.group === group)!.score),
    );
    const { chi2, exactP } = friedmanExact({ rows });
    return chi2 === null || exactP === null
      ? null
      : `chi-square ${chi2.toFixed(2)} in ${blocks.length} blocks, exact ${pWords(exactP)}`;
  });
}

type PairOfUnits = { first: string; second: string; one: readonly Unit[]; other: readonly Unit[] };

function pairDetails(question: Question, fits: FittedModels, pair: PairOfUnits): Detail[] {
  if (pair.one.length === 0 || pair.other.length === 0) return [];
  return [
    ...where("One unit left out", () => {
      const range = leaveOneOutRange(question, pair.first, pair.second);
      return range && `p of the pair alone from ${bare(range.lowest)} to ${bare(range.highest)}`;
    }),
    ...kindDetails(question, fits, pair),
  ];
}

const bare = (p: number): string => String(Number(p.toPrecision(2)));

function kindDetails(
  question: Question,
  { family }: FittedModels,
  { first, second, one, other }: PairOfUnits,
): Detail[] {
  switch (question.kind) {
    case "time":
      return where("Delta method", () => {
        const error = family.time?.logStandardError(first, second) ?? null;
        const value = family.time?.ratio(first, second, 0.95).value ?? null;
        if (error === null || value === null) return null;
        const reach = Math.exp(normalQuantile(0.975) * error);
        return `ratio ${numberWords(value)}, 95 % from ${numberWords(value / reach)} to ${numberWords(value * reach)}; too narrow for few coupons`;
      });
    case "binary":
      return [...inTwoByTwo(question, one, other), ...inStrata(question, one, other)];
    case "continuous":
      return [...betterPairings(question, one, other), ...unequalScatter(question, one, other)];
    case "area":
    case "ordinal":
      return betterPairings(question, one, other);
  }
}

function betterPairings(question: Question, one: readonly Unit[], other: readonly Unit[]): Detail[] {
  return where("Cliff's delta", () => {
    const [first, second] = [one, other].map((units) => betterUpwards(question, units).map(({ value }) => value));
    return `${numberWords(cliffsDelta({ first: first!, second: second! }).delta)}: pairings in which the first is better, less those in which it is worse`;
  });
}

function unequalScatter(question: Question, one: readonly Unit[], other: readonly Unit[]): Detail[] {
  return where("Games-Howell", () => {
    const groups = [one, other].map((units) => units.map((unit) => unitValue(question, unit)));
    return `without equal scatter and without blocks: ${pWords(gamesHowell({ groups, confidence: 0.95 }).pairs[0]!.p)}`;
  });
}

function outcomes(question: Question, units: readonly Unit[]): [number, number] {
  const good = units.filter((unit) => unitValue(question, unit) === 1).length;
  return [good, units.length - good];
}

function inTwoByTwo(question: Question, one: readonly Unit[], other: readonly Unit[]): Detail[] {
  return where("Boschloo", () => {
    const [first, second] = [outcomes(question, one), outcomes(question, other)];
    const counts = { successes1: first[0], trials1: one.length, successes2: second[0], trials2: other.length };
    return pWords(boschloo({ ...counts, alternative: "twoSided" }).p);
  });
}

function inStrata(question: Question, one: readonly Unit[], other: readonly Unit[]): Detail[] {
  const blocks = [...new Set([...one, ...other].map((unit) => unit.block))];
  if (blocks.length < 2) return [];
  return where("Cochran-Mantel-Haenszel", () => {
    const strata = blocks.map((block): [[number, number], [number, number]] => [
      outcomes(
        question,
        one.filter((unit) => unit.block === block),
      ),
      outcomes(
        question,
        other.filter((unit) => unit.block === block),
      ),
    ]);
    const { chi2, p } = cochranMantelHaenszel({ strata, continuity: false });
    return `chi-square ${chi2.toFixed(2)}, ${pWords(p)}`;
  });
}
