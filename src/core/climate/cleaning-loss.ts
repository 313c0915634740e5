/** What cleaning itself took: the true mass loss behind repeated cleaning, and behind blanks. */
import { InputError, requireList, requireNotNegative, requireWhole } from "../input-error.ts";

/**
 * Bounds of the true mass loss from equal, repeated cleaning cycles.
 *
 * Method   corrosion.cleaningSeries
 * Formula  least-squares line through the flat leg; D = the line at cycle 0; B = where the line meets the one from the
 *          origin through cycle 1; the true loss lies between B and D
 * Units    mg, cumulative, by cycle from 1; slope in mg per cycle
 * Source   ASTM G1 / ISO 8407, repeated cleaning; the reading of B and D from memory
 * Status   memory
 * Holds    when the cycles are alike and the flat leg is straight; choose the cleaner with the flattest leg
 * Refuses  fewer than two points on the flat leg; a series that falls; a flat leg as steep as the first cycle
 */
export function cleaningSeries(series: { cumulativeMassLossMg: readonly number[]; flatFromCycle: number }): {
  slopeMgPerCycle: number;
  interceptMg: number;
  intersectionMg: number;
} {
  const { cumulativeMassLossMg: losses, flatFromCycle } = series;
  requireList("cumulativeMassLossMg", losses, 2);
  requireWhole("flatFromCycle", flatFromCycle, 1);
  for (const [at, loss] of losses.entries()) {
    requireNotNegative(`cumulativeMassLossMg[${at}]`, loss);
    const before = at === 0 ? 0 : losses[at - 1]!;
    if (loss < before)
      throw new InputError(`cumulativeMassLossMg[${at}]`, loss, `at least the loss of the cycle before, ${before}`);
  }
  if (losses.length - flatFromCycle < 1)
    throw new InputError("flatFromCycle", flatFromCycle, `a cycle with one more after it; there are ${losses.length}`);
  const line = flatLine(losses, flatFromCycle);
  const steep = losses[0]!;
  if (steep <= line.slopeMgPerCycle)
    throw new InputError("cumulativeMassLossMg", losses, "a first cycle that takes more than one of the flat leg");
  // Lines steep * cycle and intercept + slope * cycle meet at this cycle.
  const cycle = line.interceptMg / (steep - line.slopeMgPerCycle);
  return { ...line, intersectionMg: steep * cycle };
}

function flatLine(losses: readonly number[], from: number): { slopeMgPerCycle: number; interceptMg: number } {
  const flat = losses.slice(from - 1);
  const middleCycle = from + (flat.length - 1) / 2;
  const meanLoss = flat.reduce((sum, loss) => sum + loss, 0) / flat.length;
  let products = 0;
  let squares = 0;
  for (const [at, loss] of flat.entries()) {
    const distance = from + at - middleCycle;
    products += distance * (loss - meanLoss);
    squares += distance * distance;
  }
  const slopeMgPerCycle = products / squares;
  return { slopeMgPerCycle, interceptMg: meanLoss - slopeMgPerCycle * middleCycle };
}

/**
 * Mass loss less what cleaning takes from uncorroded blanks.
 *
 * Method   corrosion.blankCorrectedMassLoss
 * Formula  loss - mean of the blanks' losses
 * Units    mg
 * Source   ASTM G1 / ISO 8407, blanks
 * Status   computed
 * Holds    for blanks of the same batch cleaned alike; a result below 0 says that the loss is lost in the blanks' scatter
 * Refuses  no blanks; a negative loss
 */
export function blankCorrectedMassLoss(coupon: { massLossMg: number; blankLossesMg: readonly number[] }): number {
  requireNotNegative("massLossMg", coupon.massLossMg);
  requireList("blankLossesMg", coupon.blankLossesMg);
  let sum = 0;
  for (const [at, loss] of coupon.blankLossesMg.entries()) {
    requireNotNegative(`blankLossesMg[${at}]`, loss);
    sum += loss;
  }
  return coupon.massLossMg - sum / coupon.blankLossesMg.length;
}
