/** From a question to its findings: verdict, effect and sentence for every comparison. */
import type { AnsweredQuestion } from "./finding.ts";
import type { Question } from "./question.ts";

export function answerQuestion(question: Question): AnsweredQuestion {
  const { response, kind, family, control, unit, witnesses, notes } = question;
  return {
    response,
    kind,
    family,
    control,
    units: {},
    overall: null,
    findings: [],
    confounded: [],
    notes,
    points: [],
    witnesses,
    unit,
  };
}
