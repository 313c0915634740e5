/**
 * What an inspector's agreement with the true areas means, in sentences.
 *
 * Units    as the agreement's own: factors for percents, grades for grades
 * Source   the project's own words
 * Status   common practice
 */
import { type EyeAgreement, type Lean, type ReadingWay, smallUpToPercent } from "./eye-agreement.ts";

/** Sentences about the inspector named ("You", "Ines"), the most useful first; factors or grades, as the way they read, of the things and against the area named. */
export function eyeSentences(
  who: string,
  way: ReadingWay,
  agreement: EyeAgreement,
  { things, area } = { things: "plates", area: "the true area" },
): string[] {
  const { plates, sameGrade, withinOneGrade, kappa, all, small, large } = agreement;
  const parts = [
    small && leanSentence(who, way, small, `small areas (up to ${smallUpToPercent} %)`, things),
    large && leanSentence(who, way, large, `large areas (above ${smallUpToPercent} %)`, things),
  ];
  const grades = `Same D610 grade on ${sameGrade} of ${plates} ${things}, within one grade on ${withinOneGrade}`;
  return [
    ...parts.filter((one) => one !== null),
    ...(all && !unknown(way, all) ? [spreadSentence(way, all, area)] : []),
    kappa === null
      ? `${grades}.`
      : `${grades}; quadratic weighted kappa ${kappa.kappa.toFixed(2)} (${kappa.lower.toFixed(2)} to ${Math.min(1, kappa.upper).toFixed(2)}, where 1 is full agreement and 0 is chance).`,
  ];
}

function leanSentence(who: string, way: ReadingWay, part: Lean, areas: string, things: string): string {
  if (unknown(way, part)) return `${part.plates} ${things} are too few to tell a lean on ${areas}.`;
  return way === "percent" ? factorSentence(who, part, areas) : gradeSentence(who, part, areas);
}

/** Two digits: a factor from a handful of plates bears no more. */
const two = (value: number): string => (value >= 9.95 ? value.toFixed(0) : value.toFixed(1));

/** A mean factor that is not known to this factor up or down says nothing: two grades of D610 and more lie within it. */
const mostFactorUnknown = 10;
/** The same for a mean of grades. */
const mostGradesUnknown = 2;

function unknown(way: ReadingWay, { from, to }: Lean): boolean {
  return way === "percent" ? Math.sqrt(to / from) > mostFactorUnknown : (to - from) / 2 > mostGradesUnknown;
}

function factorSentence(who: string, { lean, from, to }: Lean, areas: string): string {
  if (from > 1) return `${who} read ${two(lean)} times too high on ${areas}; likely ${two(from)} to ${two(to)} times.`;
  if (to < 1)
    return `${who} read ${two(1 / lean)} times too low on ${areas}; likely ${two(1 / to)} to ${two(1 / from)} times.`;
  return `No lean is seen on ${areas}: it lies between ${two(1 / from)} times too low and ${two(to)} times too high.`;
}

/** A lower grade is more rust. */
function gradeSentence(who: string, { lean, from, to }: Lean, areas: string): string {
  if (to < 0)
    return `${who} graded ${two(-lean)} too low (too rusty) on ${areas}; likely ${two(-to)} to ${two(-from)} grades.`;
  if (from > 0)
    return `${who} graded ${two(lean)} too high (too clean) on ${areas}; likely ${two(from)} to ${two(to)} grades.`;
  return `No lean is seen on ${areas}: it lies between ${two(-from)} of a grade too low and ${two(to)} too high.`;
}

function spreadSentence(way: ReadingWay, { lowest, highest }: Lean, area: string): string {
  if (way === "percent") {
    const factor = (value: number) => (value < 1 ? value.toFixed(2) : two(value));
    return `Of single readings 19 in 20 are expected between ${factor(lowest)} and ${factor(highest)} times ${area}.`;
  }
  const off = (value: number) => `${two(Math.abs(value))} too ${value < 0 ? "low" : "high"}`;
  return `Of single gradings 19 in 20 are expected between ${off(lowest)} and ${off(highest)}.`;
}
