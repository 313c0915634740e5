/** A straight line through measured points. */
import { InputError, requireFinite, requireFraction } from "../input-error.ts";
import { tQuantile, tTwoSided } from "../numeric/t-distribution.ts";
import { mean, requireScatter, sum } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Least-squares line with its limits.
 *
 * Method   means.linearRegression
 * Formula  slope = Σ (x - mean x)(y - mean y) / Σ (x - mean x)²; limits from t with n - 2 degrees of freedom
 * Units    those of x and y
 * Source   least squares; NIST StRD data set Norris reproduces
 * Status   computed
 * Holds    for even scatter round a straight line; mean limits are for the line at atX, prediction limits for one new point
 * Refuses  fewer than three points; unequal lengths; one x; points exactly on a line; a confidence not between 0 and 1
 */
export function linearRegression(points: { x: number[]; y: number[]; confidence: number; atX?: number }) {
  const { x, y, confidence, atX } = points;
  requireValues("x", x, 3);
  requireValues("y", y, 3);
  if (x.length !== y.length) throw new InputError("y", y, `as many values as x, ${x.length}`);
  requireFraction("confidence", confidence);
  if (atX !== undefined) requireFinite("atX", atX);
  const n = x.length;
  const middleX = mean(x);
  const middleY = mean(y);
  const fromX = x.map((value) => value - middleX);
  const fromY = y.map((value) => value - middleY);
  const squaresX = sum(fromX.map((value) => value * value));
  requireScatter("x", squaresX, x, "at least two different x");
  const slope = sum(fromX.map((value, at) => value * fromY[at]!)) / squaresX;
  const squaresResidual = sum(fromX.map((value, at) => (fromY[at]! - slope * value) ** 2));
  requireScatter("y", squaresResidual, y, "points that scatter about the line");
  const df = n - 2;
  const residualSd = Math.sqrt(squaresResidual / df);
  const standardErrorSlope = residualSd / Math.sqrt(squaresX);
  const critical = tQuantile((1 - confidence) / 2, df, "upper");
  const t = slope / standardErrorSlope;
  const line = {
    slope,
    intercept: middleY - slope * middleX,
    standardErrorSlope,
    standardErrorIntercept: residualSd * Math.sqrt(1 / n + (middleX * middleX) / squaresX),
    residualSd,
    rSquared: 1 - squaresResidual / sum(fromY.map((value) => value * value)),
    slopeLower: slope - critical * standardErrorSlope,
    slopeUpper: slope + critical * standardErrorSlope,
    t,
    df,
    p: tTwoSided(t, df),
  };
  if (atX === undefined) return line;
  const fitted = middleY + slope * (atX - middleX);
  const leverage = 1 / n + (atX - middleX) ** 2 / squaresX;
  const meanHalf = critical * residualSd * Math.sqrt(leverage);
  const predictionHalf = critical * residualSd * Math.sqrt(1 + leverage);
  return {
    ...line,
    fitted,
    meanLower: fitted - meanHalf,
    meanUpper: fitted + meanHalf,
    predictionLower: fitted - predictionHalf,
    predictionUpper: fitted + predictionHalf,
  };
}
