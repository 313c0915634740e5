/**
 * One coupon's part of a Weibull log-likelihood with its first and second derivatives, in z = shape (ln time - ln scale).
 * In (shape, shape x ln scale) z is a straight line and the whole log-likelihood has one summit (Burridge 1981).
 *
 * Units   ln days (or ln strokes) in, ln likelihood out
 * Source  Meeker and Escobar 1998; one summit: Burridge 1981
 * Status  computed
 */

/** ln times of the ends, null: none there (left: from the start, right: not yet). Equal ends: known exactly. */
export type LogInterval = { left: number | null; right: number | null };

/** Derivatives by z at the left and at the right end. For an exact time all of it stands at the left end. */
export type WeibullTerm = {
  value: number;
  left: number;
  right: number;
  leftLeft: number;
  rightRight: number;
  leftRight: number;
};

/** Fills `term`, so that a fit makes no object for each coupon in each round. The ln of the shape in an exact time is added here. */
export function weibullTerm({ left, right }: LogInterval, shape: number, location: number, term: WeibullTerm): void {
  const hazardLeft = left === null ? 0 : Math.exp(shape * left - location);
  term.right = 0;
  term.rightRight = 0;
  term.leftRight = 0;
  if (right === null || (left !== null && left === right)) {
    const exact = right !== null && left !== null;
    term.value = (exact ? Math.log(shape) + shape * left - location : 0) - hazardLeft;
    term.left = (exact ? 1 : 0) - hazardLeft;
    term.leftLeft = -hazardLeft;
    return;
  }
  const hazardRight = Math.exp(shape * right - location);
  const between = hazardRight - hazardLeft;
  const odds = 1 / Math.expm1(between);
  const bend = odds * (1 + odds);
  // Beyond the range of numbers both are their limits: no curvature, all of the slope at the left end.
  const bendRight = bend === 0 ? 0 : bend * hazardRight;
  term.value = -hazardLeft + Math.log(-Math.expm1(-between));
  term.left = -(1 + odds) * hazardLeft;
  term.right = odds === 0 ? 0 : odds * hazardRight;
  term.leftLeft = -(1 + odds) * hazardLeft - bend * hazardLeft * hazardLeft;
  term.rightRight = term.right - bendRight * hazardRight;
  term.leftRight = bendRight * hazardLeft;
}
