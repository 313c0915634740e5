/** Several tape tests of one panel: mean and range. */
import { requireList, requireOneOf } from "../input-error.ts";
import { type TapeClass, tapeClasses } from "./tape-classes.ts";

/**
 * Mean, reported class and range of tape tests on one panel.
 *
 * Method   rating.tapeTestSummary
 * Formula  meanClass = mean of the class numbers; reportedGrade = mean rounded to a whole class (a half to the better)
 * Units    classes 5 (best) to 0, all A (X-cut) or all B (cross-cut)
 * Source   ASTM D3359, report: number of tests, mean and range; rounding to a whole class is common practice
 * Status   computed
 * Holds    as a report of one panel; classes are ordered, not measured: compare treatments by ranks, the coupon as unit
 * Refuses  a mixture of A and B; an empty list; a class that does not exist
 */
export function tapeTestSummary(grades: readonly TapeClass[]): {
  meanClass: number;
  reportedGrade: TapeClass;
  worstGrade: TapeClass;
  bestGrade: TapeClass;
} {
  requireList("grades", grades);
  for (const [at, grade] of grades.entries()) requireOneOf(`grades[${at}]`, grade, tapeClasses);
  const cut = grades[0]!.endsWith("A") ? "A" : "B";
  const ofOneCut = tapeClasses.filter((tapeClass) => tapeClass.endsWith(cut));
  for (const [at, grade] of grades.entries()) requireOneOf(`grades[${at}]`, grade, ofOneCut);
  const numbers = grades.map((grade) => Number(grade[0]));
  const meanClass = numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
  // tapeClasses runs from 5 down to 0 within a cut.
  const named = (number: number): TapeClass => ofOneCut[5 - number]!;
  return {
    meanClass,
    reportedGrade: named(Math.round(meanClass)),
    worstGrade: named(Math.min(...numbers)),
    bestGrade: named(Math.max(...numbers)),
  };
}
