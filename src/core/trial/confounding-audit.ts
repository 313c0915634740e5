/**
 * What a difference between two treatments could be confused with: each circumstance that was not meant to differ, on the units of
 * both. The thresholds are this project's rules.
 */

import { mean } from "../statistics/moments.ts";
import type { Compared } from "./analysis.ts";
import type { Confounded } from "./finding.ts";
import { permutedShare } from "./permuted-share.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { differingSteps, sharedSteps, type Unit } from "./units-of-replication.ts";

/** Means closer than this are one: absolute, or as a share of the mean. By the name of the circumstance. */
export const harmlessWidths: readonly { name: RegExp; absolute?: number; share?: number }[] = [
  { name: /bath.*temp/i, absolute: 0.5 },
  { name: /(steel|painting).*temp/i, absolute: 2 },
  { name: /step time|time of step|duration/i, share: 0.1 },
  { name: /wait/i, absolute: 60 },
  { name: /exposure start/i, absolute: 1 },
  { name: /sharpness/i, share: 0.1 },
];

export type Aliased = {
  circumstance: string;
  how: Confounded["how"];
  /** Level of each unit of the first, then of the second treatment, for a test within levels. */
  levels: string[];
};

const heavyShare = 0.5;
const partShare = 0.2;
const fullNumericShare = 0.9;

/** A comparison as far as the audit looks at it. */
export type AuditedPair = Pick<Compared, "first" | "second" | "units" | "layout">;

/** `batch` cases of the units' own rules first, then every circumstance with more than chance in it. */
export function confoundingOf(question: Question, row: AuditedPair): Aliased[] {
  const { batch } = row.layout;
  const found: Aliased[] = batch
    ? [{ circumstance: batch.step, how: batch.case === "each has one" ? "fully" : "heavily", levels: [] }]
    : [];
  for (const circumstance of circumstancesOf(question, row)) {
    const aliased = auditOne(circumstance, row);
    if (aliased) found.push(aliased);
  }
  return strongestOfEach(found);
}

/** Several levels of one circumstance are one thing to name. */
function strongestOfEach(found: readonly Aliased[]): Aliased[] {
  const strength = { fully: 2, heavily: 1, partly: 0 };
  const strongest = new Map<string, Aliased>();
  for (const one of found) {
    const known = strongest.get(one.circumstance);
    if (!known || strength[one.how] > strength[known.how]) strongest.set(one.circumstance, one);
  }
  return [...strongest.values()];
}

type Circumstance = { name: string; values: readonly (string | number | null)[][] };

/** Values of each unit, by treatment. The steps in which the two differ are no circumstances: section on units judges them. */
function circumstancesOf(question: Question, row: AuditedPair): Circumstance[] {
  const coupons = row.units.flat().flatMap((unit) => unit.coupons);
  const names = [...new Set(coupons.flatMap((coupon) => Object.keys(coupon.circumstances)))];
  const plain = names.flatMap((name) => circumstance(name, row, (coupon) => coupon.circumstances[name] ?? null));
  return [...plain, ...commonSteps(question, row)];
}

/**
 * A unit of several coupons may have several levels: two at the edge, one inside. "Edge and inner" would be a level that no single
 * coupon can have, and would part the treatments by their batches; the share of its coupons at each level can be compared.
 */
function circumstance(
  name: string,
  { units }: AuditedPair,
  levelOf: (coupon: QuestionCoupon) => string | number | null,
): Circumstance[] {
  const levelsOf = (unit: Unit) => unit.coupons.flatMap((coupon) => levelOf(coupon) ?? []);
  const all = units.flat().flatMap(levelsOf);
  const mixed = units.flat().some((unit) => new Set(levelsOf(unit)).size > 1);
  if (!mixed || all.every((level) => typeof level === "number"))
    return [{ name, values: units.map((own) => own.map((unit) => joined(levelsOf(unit)))) }];
  // Mere names, one coupon each, say nothing.
  if (new Set(all).size === all.length) return [];
  // The last level follows from the others.
  return [...new Set(all)].slice(0, -1).map((level) => ({
    name,
    values: units.map((own) => own.map((unit) => shareAt(levelsOf(unit), level))),
  }));
}

function shareAt(levels: readonly (string | number)[], level: string | number): number | null {
  return levels.length === 0 ? null : levels.filter((one) => one === level).length / levels.length;
}

/** One value for a unit whose coupons agree, or the mean of numbers. */
function joined(levels: readonly (string | number)[]): string | number | null {
  const numbers = levels.filter((level) => typeof level === "number");
  return numbers.length > 0 && numbers.length === levels.length ? mean(numbers) : (levels[0] ?? null);
}

/**
 * Which bath run or dip of a step that both treatments went through. Where the routes do not tell (a plain table), a step is shared when
 * an application of it is; otherwise it is what differs.
 */
function commonSteps(question: Question, row: AuditedPair): Circumstance[] {
  const { first, second, units } = row;
  const known = differingSteps(question, first, second) !== null;
  const coupons = units.flat().flatMap((unit) => unit.coupons);
  const recorded = [...new Set(coupons.flatMap((coupon) => Object.keys(coupon.applications)))];
  const steps = known ? sharedSteps(question, first, second) : recorded;
  const applicationsOf = (own: readonly Unit[], name: string) =>
    own.flatMap((unit) => unit.coupons.flatMap((coupon) => coupon.applications[name] ?? []));
  const inCommon = (name: string) => {
    const others = new Set(applicationsOf(row.units[1], name));
    return applicationsOf(row.units[0], name).some((application) => others.has(application));
  };
  return steps
    .filter((name) => known || inCommon(name))
    .flatMap((name) => circumstance(name, row, (coupon) => coupon.applications[name] ?? null));
}

function auditOne({ name, values }: Circumstance, row: AuditedPair): Aliased | null {
  const known = values.flat().filter((value) => value !== null);
  const numeric = known.every((value) => typeof value === "number");
  const [n1, n0] = [values[0]!.length, values[1]!.length];
  const missing = n1 + n0 - known.length;
  if (known.length === 0) return null;
  const oftenMissing = missing >= (n1 + n0) / 5 && missing > 0;
  if (numeric && !oftenMissing) return auditNumbers(name, values, row);
  // Not recorded for many: that is a level of its own. For few: those units are left out.
  const levelOf = (value: string | number | null) =>
    value === null ? (oftenMissing ? "not recorded" : null) : numeric ? "recorded" : String(value);
  return auditLevels(
    name,
    values.map((own) => own.map(levelOf)),
    row,
  );
}

function auditLevels(name: string, levels: (string | null)[][], row: AuditedPair): Aliased | null {
  const [first, second] = levels.map((own) => own.filter((level) => level !== null));
  const all = [...first!, ...second!];
  const kinds = new Set(all);
  // A constant bounds what the trial speaks for; mere names, one unit each, say nothing.
  if (kinds.size < 2 || kinds.size === all.length || first!.length === 0 || second!.length === 0) return null;
  const share = shareExplained(first!, second!);
  const adjusted = beyondChance(share, (kinds.size - 1) / (all.length - 1));
  const single = new Set(first).size === 1 || new Set(second).size === 1;
  const apart = ![...new Set(first)].some((level) => second!.includes(level));
  const flat = levels.flat().map((level) => level ?? "not recorded");
  if (apart && single) return { circumstance: name, how: "fully", levels: flat };
  return partly(name, adjusted, flat, () =>
    permutedShare(row, levels.flat(), (own, other) => shareExplained(own, other)),
  );
}

function auditNumbers(name: string, values: readonly (string | number | null)[][], row: AuditedPair): Aliased | null {
  const numbers = values.map((own) => own.filter((value) => typeof value === "number"));
  const [first, second] = numbers;
  const all = [...first!, ...second!];
  if (new Set(all).size < 2 || first!.length === 0 || second!.length === 0) return null;
  if (Math.abs(mean(first!) - mean(second!)) <= harmlessWidth(name, all)) return null;
  const share = squaredCorrelation(first!, second!);
  const adjusted = beyondChance(share, 1 / (all.length - 1));
  const apart = Math.max(...first!) < Math.min(...second!) || Math.max(...second!) < Math.min(...first!);
  const middle = [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)]!;
  const flat = values
    .flat()
    .map((value) => (typeof value === "number" ? (value < middle ? "low" : "high") : "not recorded"));
  if (apart && adjusted >= fullNumericShare) return { circumstance: name, how: "fully", levels: flat };
  return partly(name, adjusted, flat, () =>
    permutedShare(
      row,
      values.flat().map((value) => (typeof value === "number" ? value : null)),
      (own, other) => squaredCorrelation(own, other),
    ),
  );
}

/** Just above 0 for circumstances without a known width, so that rounding does not count. */
function harmlessWidth(name: string, values: readonly number[]): number {
  const width = harmlessWidths.find((one) => one.name.test(name));
  const share = (width?.share ?? 0) * Math.abs(mean(values));
  return Math.max(width?.absolute ?? 0, share, 1e-12 * Math.abs(mean(values)));
}

function partly(circumstance: string, adjusted: number, levels: string[], p: () => number): Aliased | null {
  if (adjusted >= heavyShare) return { circumstance, how: "heavily", levels };
  return adjusted >= partShare && p() <= 0.05 + 1e-9 ? { circumstance, how: "partly", levels } : null;
}

function beyondChance(share: number, chance: number): number {
  return chance >= 1 ? 0 : Math.max(0, (share - chance) / (1 - chance));
}

/** The squared Cramer's V of the table treatment by level. */
export function shareExplained(first: readonly string[], second: readonly string[]): number {
  const [n1, n0] = [first.length, second.length];
  let within = 0;
  for (const level of new Set([...first, ...second])) {
    const inFirst = first.filter((one) => one === level).length;
    const inSecond = second.filter((one) => one === level).length;
    within += (inFirst * inSecond) / (inFirst + inSecond);
  }
  return 1 - within / ((n1 * n0) / (n1 + n0));
}

/** The squared correlation of a number with "is the first treatment". */
export function squaredCorrelation(first: readonly number[], second: readonly number[]): number {
  const all = [...first, ...second];
  const middle = mean(all);
  const total = all.reduce((sum, value) => sum + (value - middle) ** 2, 0);
  if (total === 0) return 0;
  const between = (first.length * second.length * (mean(first) - mean(second)) ** 2) / all.length;
  return between / total;
}
