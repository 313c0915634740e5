/** From a method's id to its function: what `check cases` runs. Grows with the rooms of core. */
import { InputError, requireOneOf } from "../core/input-error.ts";
import { d610Grade } from "../core/rating/d610-grade.ts";

// Each method takes the named arguments of its cases and returns its named results; `never` lets every typed function stand here.
type Method = (input: never) => unknown;

export const methodTable: Readonly<Record<string, Method>> = {
  "rating.rustGradeFromAreaPercent": ({ areaPercent, standard }: { areaPercent: number; standard: string }) => {
    requireOneOf("standard", standard, ["ASTM D610"]);
    if (standard !== "ASTM D610") throw new InputError("standard", standard, '"ASTM D610"');
    return { grade: d610Grade(areaPercent) };
  },
};
