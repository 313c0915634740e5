/** What is asked, in the user's words, and what was declared before the first look. */
import type { DeclaredQuestion, TrialRecord } from "../../core/trial/trial-record.ts";
import { trialText } from "../text/trial.ts";
import { StageSection } from "./stage.tsx";

const text = trialText.question;

export function QuestionSection({ record: { plan, name } }: { record: TrialRecord }) {
  return (
    <StageSection id="question" sentence={plan.question || name}>
      <p className="lead">{text.declared}</p>
      <ul>
        {plan.questions.map((question) => (
          <li key={`${question.response} ${question.family} ${question.atDay}`}>{declared(question)}</li>
        ))}
      </ul>
    </StageSection>
  );
}

function declared({ response, family, margin, atDay }: DeclaredQuestion): string {
  return `${text.responses[response](atDay)}, ${text.family[family]}; ${margin === null ? text.noMargin : text.margin[response](margin)}.`;
}
