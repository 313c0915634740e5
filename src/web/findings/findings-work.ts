/** Answers the declared questions of a trial, one after another. Runs beside the page: exact tests may take seconds. */
import { type AnswerDetails, answerDetails } from "../../core/trial/answer-details.ts";
import { answerQuestion } from "../../core/trial/answer-question.ts";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import type { AnsweredQuestion } from "../../core/trial/finding.ts";
import type { Question } from "../../core/trial/question.ts";
import { declaredQuestions } from "../../core/trial/trial-questions.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import type { QuestionFrame } from "../../report/figures/question-findings.tsx";

export type QuestionAnswer = { declared: DeclaredQuestion } & (
  | { question: Question; answer: AnsweredQuestion; frame: QuestionFrame; details: AnswerDetails | null }
  | { why: string }
);
/** `failure`: what was refused or broke; nothing follows it. */
export type FindingsMessage = { answers: QuestionAnswer[]; finished: boolean } | { failure: string };

/** Every question first, then what a reader may want to look at beside it: that takes as long again and decides nothing. */
export function* answers(record: TrialRecord): Generator<QuestionAnswer[]> {
  const done: QuestionAnswer[] = [];
  const asked = declaredQuestions(record);
  for (const { declared, question, why } of asked) {
    if (question === null) done.push({ declared, why });
    else {
      const { better, scale } = question;
      const frame = { better, scale, declared: question.declared };
      done.push({ declared, question, answer: answerQuestion(question), frame, details: null });
    }
    yield [...done];
  }
  for (const [at, { question }] of asked.entries()) {
    const answered = done[at];
    if (question === null || !answered || !("answer" in answered)) continue;
    done[at] = { ...answered, details: answerDetails(question, answered.answer.findings) };
    yield [...done];
  }
}
