/** What is asked, in the user's words, and what was declared before the first look. */
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { declaredText, marginText } from "../text/asked.ts";
import { trialText } from "../text/trial.ts";
import { StageSection } from "./stage.tsx";

const text = trialText.question;

export function QuestionSection({ record: { plan, name } }: { record: TrialRecord }) {
  return (
    <StageSection id="question" sentence={plan.question || name}>
      <p className="lead">{text.declared}</p>
      <ul>
        {plan.questions.map((question) => (
          <li key={declared(question)}>{declared(question)}</li>
        ))}
      </ul>
    </StageSection>
  );
}

function declared(question: DeclaredQuestion): string {
  const compared = question.order ? text.inOrder(question.order) : text.family[question.family];
  const parts = [`${declaredText(question)}, ${compared}`, marginText(question)];
  return `${[...parts, ...(question.exploratory ? [text.exploratory] : [])].join("; ")}.`;
}
