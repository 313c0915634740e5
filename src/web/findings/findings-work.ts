/** Answers the declared questions of a trial, one after another. Runs beside the page: exact tests may take seconds. */
import { answerQuestion } from "../../core/trial/answer-question.ts";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import type { AnsweredQuestion } from "../../core/trial/finding.ts";
import { declaredQuestions } from "../../core/trial/trial-questions.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import type { QuestionFrame } from "../../report/figures/question-findings.tsx";

export type QuestionAnswer = { declared: DeclaredQuestion } & (
  | { answer: AnsweredQuestion; frame: QuestionFrame }
  | { why: string }
);
/** `failure`: what was refused or broke; nothing follows it. */
export type FindingsMessage = { answers: QuestionAnswer[]; finished: boolean } | { failure: string };

export function* answers(record: TrialRecord): Generator<QuestionAnswer> {
  for (const { declared, question, why } of declaredQuestions(record)) {
    if (question === null) {
      yield { declared, why };
      continue;
    }
    const { better, scale } = question;
    yield { declared, answer: answerQuestion(question), frame: { better, scale, declared: question.declared } };
  }
}
