/** What is asked, in the user's words, what was declared before the first look, and how the plan was corrected since. */
import { Link } from "wouter";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { changeWords, planCorrections } from "../../core/trial/plan-changes.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { sizeText } from "../parts/quantity.ts";
import { usePreferences } from "../shop/queries.ts";
import { declaredText, marginText } from "../text/asked.ts";
import { instantText, recordText } from "../text/parts.ts";
import { trialText } from "../text/trial.ts";
import { More, StageSection } from "./stage.tsx";

const text = trialText.question;

export function QuestionSection({ record }: { record: TrialRecord }) {
  const { plan, name } = record;
  return (
    <StageSection id="question" sentence={plan.question || name}>
      <p className="lead">{plan.questions.some((one) => one.exploratory) ? text.declaredLate : text.declared}</p>
      <ul>
        {plan.questions.map((question) => (
          <li key={declared(question)}>{declared(question)}</li>
        ))}
      </ul>
      <Corrections record={record} />
      <div className="actions">
        <Link href={`/trials/${record.id}/plan`} className="button second">
          {text.correct}
        </Link>
      </div>
    </StageSection>
  );
}

function declared(question: DeclaredQuestion): string {
  const compared = question.order ? text.inOrder(question.order) : text.family[question.family];
  const parts = [`${declaredText(question)}, ${compared}`, marginText(question)];
  return `${[...parts, ...(question.exploratory ? [text.exploratory] : [])].join("; ")}.`;
}

function Corrections({ record }: { record: TrialRecord }) {
  const preferences = usePreferences();
  const corrections = planCorrections(record);
  if (corrections.length === 0) return null;
  return (
    <More label={text.corrected(corrections.length)}>
      <ul className="bare">
        {corrections.map(({ id, on, by, why, changes }) => (
          <li key={id} className="record">
            <p>
              {why} <span className="when">{recordText.by(by, instantText(on))}</span>
            </p>
            <ul>
              {changes
                .map((change) => changeWords(change, (mm) => sizeText(mm, preferences)))
                .map((said) => (
                  <li key={said}>{said}</li>
                ))}
            </ul>
          </li>
        ))}
      </ul>
    </More>
  );
}
