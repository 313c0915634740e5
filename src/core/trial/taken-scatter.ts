/**
 * The scatter that a former trial lends to a new plan, by the estimate behind "what would tell": its cautious limit, with what its
 * control reached.
 */
import { InputError } from "../input-error.ts";
import { type DeclaredQuestion, responseKind, responseName } from "./declared-question.ts";
import { nextTrialScatter } from "./next-trial.ts";
import { sameName } from "./plain-table.ts";
import { asksColour, type PlanAssumptions } from "./plan-assumptions.ts";
import type { Question } from "./question.ts";
import type { Spread } from "./simulated-trial.ts";
import { declaredQuestions } from "./trial-questions.ts";
import type { TrialRecord } from "./trial-record.ts";

export type TakenScatter = {
  scatter: Partial<PlanAssumptions>;
  /** What half of its control reached; null: it had none. */
  control: number | null;
  /** "Scatter from "shed", 24 coupons: Weibull shape 2.4 (its cautious limit)." */
  words: string;
};

/** Refuses a trial that did not answer such a question, or yes and no, which have no scatter of their own. */
export function takenScatter(record: TrialRecord, declared: DeclaredQuestion): TakenScatter {
  const question = answeredAlike(record, declared);
  const { spread, blockSd, units, centre } = nextTrialScatter(question);
  const lowest = question.control;
  const control = lowest === null ? null : rounded(onOwnScale(question, centre(lowest)));
  const middle = control ?? onOwnScale(question, centre(question.treatments[0]!));
  const scatter =
    spread.of === "value" && asksColour(declared) ? colourScatter(spread.sd) : scatterOf(question, spread, middle);
  if (scatter === null)
    throw new InputError("scatter from", record.name, "a trial of times, areas, classes or measured values");
  return {
    // Blocks that its fit does not know of are in its scatter already; in proportion, as the simulation takes them.
    scatter: { ...scatter.assumed, blockLogSd: blockSd },
    control,
    words: `Scatter from "${record.name}", ${units} units: ${scatter.words}.`,
  };
}

function answeredAlike(record: TrialRecord, declared: DeclaredQuestion): Question {
  const asked = declaredQuestions(record).filter(
    (one) =>
      sameName(responseName(one.declared), responseName(declared)) &&
      responseKind(one.declared) === responseKind(declared) &&
      isRatio(one.declared) === isRatio(declared),
  );
  const answered = asked.find((one) => one.question !== null && one.declared.order === undefined) ?? asked[0];
  if (answered?.question) return answered.question;
  const why = answered?.why ?? `it did not ask about ${responseName(declared)}`;
  throw new InputError("scatter from", record.name, `a trial that answers ${responseName(declared)}: ${why}`);
}

const isRatio = (declared: DeclaredQuestion): boolean => declared.response === "value" && declared.ratio;

function onOwnScale({ kind, ratio }: Question, centre: number): number {
  if (kind === "area") return 10 ** centre;
  return kind === "time" || (kind === "continuous" && ratio) ? Math.exp(centre) : centre;
}

const rounded = (value: number): number => Number(value.toPrecision(3));

function colourScatter(sd: number): { assumed: Partial<PlanAssumptions>; words: string } {
  return { assumed: { colourSd: rounded(sd) }, words: `${rounded(sd)} in its own unit, its cautious limit` };
}

function scatterOf(
  { ratio }: Question,
  spread: Spread,
  control: number,
): { assumed: Partial<PlanAssumptions>; words: string } | null {
  switch (spread.of) {
    case "time": {
      if (spread.law.name === "Weibull") {
        const shape = rounded(spread.law.shape);
        return { assumed: { shape }, words: `Weibull shape ${shape}, its cautious limit` };
      }
      const strokesLogSd = rounded(spread.law.logSd);
      return { assumed: { strokesLogSd }, words: `of the logarithm ${strokesLogSd}, its cautious limit` };
    }
    case "area": {
      const areaLog10Sd = rounded(spread.log10Sd);
      return {
        assumed: { areaLog10Sd },
        words: `of the logarithm (base 10) ${areaLog10Sd}, as is assumed of all areas`,
      };
    }
    case "class": {
      const classSd = rounded(spread.sd);
      return { assumed: { classSd }, words: `${classSd} classes, its cautious limit` };
    }
    case "value": {
      const coefficientOfVariation = rounded(ratio ? spread.sd : spread.sd / Math.abs(control));
      return {
        assumed: { coefficientOfVariation },
        words: `${rounded(100 * coefficientOfVariation)} %, its cautious limit`,
      };
    }
    case "share":
      return null;
  }
}
