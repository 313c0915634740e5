/** The effect of one comparison with its interval: a ratio, a shift or a difference, as the response asks. */
import type { Effect } from "./finding.ts";
import type { Fitted } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { areaEffect, classShift } from "./rank-effect.ts";
import { shareEffect } from "./share-effect.ts";
import { type Asked, timeEffect } from "./time-effect.ts";
import type { Unit } from "./units-of-replication.ts";
import { valueEffect } from "./value-effect.ts";
import { modelOf } from "./value-models.ts";

type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

/** In the units of the effect's name; null where the layout ties no two such units together. */
export function effectOf(question: Question, fitted: Fitted, groups: TwoGroups, asked: Asked): Effect | null {
  switch (question.kind) {
    case "time":
      return timeEffect(question, fitted.time, groups, asked);
    case "area":
      return areaEffect(question, groups, asked);
    case "ordinal":
      return classShift(question, groups, asked);
    case "binary":
      return shareEffect(question, groups, asked.confidence);
    case "continuous":
      return fitted.value && valueEffect(question, modelOf(fitted.value, groups), groups, asked.confidence);
  }
}

/** Where no difference stands on the effect's scale, and whether more of it is better for the first treatment. */
export function effectDirection(
  question: Question,
  { name }: Pick<Effect, "name">,
): { neutral: number; moreIsBetter: boolean } {
  switch (name) {
    case "time ratio":
    case "stroke ratio":
      return { neutral: 1, moreIsBetter: true };
    case "area ratio":
      return { neutral: 1, moreIsBetter: false };
    case "Cliff's delta":
    case "class shift":
    case "difference of shares":
      return { neutral: 0, moreIsBetter: true };
    case "ratio":
      return { neutral: 1, moreIsBetter: question.better === "higher" };
    case "difference":
      return { neutral: 0, moreIsBetter: question.better === "higher" };
  }
}
