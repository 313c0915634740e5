/** Coupons, graders and repeats: where the scatter of a measurement comes from. */
import { InputError, requireList } from "../input-error.ts";
import { mean, requireScatter, sum } from "./moments.ts";
import { columnsOf, requireTable } from "./table-of-values.ts";

/**
 * Crossed gauge study: scatter of repeats, graders, their interaction with coupons, and coupons.
 *
 * Method   agreement.gaugeRepeatability
 * Formula  two-way analysis of variance with the interaction kept; components from expected mean squares, a negative one is 0;
 *          distinctCategories = whole part of √2 part SD / gauge SD
 * Units    those of the values; values[coupon][grader][trial]; gaugePercentOfTotal in % of the total SD
 * Source   analysis of variance, random effects; the usual gauge study of ten parts reproduces (from memory)
 * Status   computed
 * Holds    for the coupons and graders of the study
 * Refuses  one coupon, grader or trial; a missing value; no scatter of the measurement
 */
export function gaugeRepeatability({ values }: { values: number[][][] }) {
  const { parts, operators, trials } = requireCrossed(values);
  const origin = values[0]![0]![0]!;
  const cells = values.map((part) => part.map((repeats) => mean(repeats.map((value) => value - origin))));
  const grand = mean(cells.flat());
  const ofPart = cells.map(mean);
  const ofOperator = columnsOf(cells).map(mean);
  const squares = (list: number[]) => sum(list.map((one) => one * one));
  const ssPart = operators * trials * squares(ofPart.map((one) => one - grand));
  const ssOperator = parts * trials * squares(ofOperator.map((one) => one - grand));
  const ssInteraction =
    trials * squares(cells.flatMap((row, p) => row.map((cell, o) => cell - ofPart[p]! - ofOperator[o]! + grand)));
  const ssRepeatability = squares(
    values.flatMap((part, p) => part.flatMap((repeats, o) => repeats.map((value) => value - origin - cells[p]![o]!))),
  );
  const msInteraction = ssInteraction / ((parts - 1) * (operators - 1));
  const repeatability = ssRepeatability / (parts * operators * (trials - 1));
  const interaction = Math.max(0, (msInteraction - repeatability) / trials);
  const operator = Math.max(0, (ssOperator / (operators - 1) - msInteraction) / (parts * trials));
  const part = Math.max(0, (ssPart / (parts - 1) - msInteraction) / (operators * trials));
  const gauge = repeatability + operator + interaction;
  requireScatter("values", ssRepeatability + ssOperator + ssInteraction, values.flat(2), "measurements that scatter");
  if (gauge === 0) throw new InputError("values", values, "measurements that scatter");
  return {
    ...{ ssPart, ssOperator, ssInteraction, ssRepeatability },
    repeatabilitySd: Math.sqrt(repeatability),
    operatorSd: Math.sqrt(operator),
    interactionSd: Math.sqrt(interaction),
    reproducibilitySd: Math.sqrt(operator + interaction),
    gaugeSd: Math.sqrt(gauge),
    partSd: Math.sqrt(part),
    totalSd: Math.sqrt(gauge + part),
    gaugePercentOfTotal: 100 * Math.sqrt(gauge / (gauge + part)),
    distinctCategories: Math.floor(Math.sqrt((2 * part) / gauge)),
  };
}

function requireCrossed(values: number[][][]): { parts: number; operators: number; trials: number } {
  requireList("values", values, 2);
  for (const [at, part] of values.entries()) {
    requireTable(`values[${at}]`, part, { rows: 2, columns: 2 });
    if (part.length !== values[0]!.length || part[0]!.length !== values[0]![0]!.length)
      throw new InputError(`values[${at}]`, part, "as many graders and trials as for the first coupon");
  }
  return { parts: values.length, operators: values[0]!.length, trials: values[0]![0]!.length };
}
