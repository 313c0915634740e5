/** What a plan can and cannot show, comparison by comparison: the units first, since they are what is counted. */
import { familyWords } from "../../core/trial/family-words.ts";
import type { PlanOutlook, QuestionOutlook } from "../../core/trial/plan-outlook.ts";
import { capital } from "../../report/capital.ts";
import { VerdictShape } from "../../report/figures/verdict-mark.tsx";
import { WhySaid } from "../parts/why.tsx";
import { outlookText } from "../text/outlook.ts";

export function OutlookReading({ outlook }: { outlook: PlanOutlook }) {
  return (
    <>
      {outlook.questions.map((question) => (
        <QuestionRead key={`${question.response} ${question.family} ${question.order?.sentence}`} question={question} />
      ))}
      {outlook.notes.map((note) => (
        <p key={note}>
          <small>{note}</small>
        </p>
      ))}
    </>
  );
}

function QuestionRead({ question }: { question: QuestionOutlook }) {
  const named = capital(`${question.response}, ${familyWords({ ...question, order: question.order?.treatments })}`);
  return (
    <section className="outlook-question" aria-label={named}>
      <h3>{named}</h3>
      {question.order ? (
        <p className="outlook-row">
          <VerdictShape verdict={question.order.atBest} />
          <span>{question.order.sentence}</span>
        </p>
      ) : (
        <p>{outlookText.count(question.comparisons.map((one) => one.atBest))}</p>
      )}
      <ul className="bare">
        {question.comparisons.map((one) => (
          <li key={`${one.first} ${one.second}`} className="outlook-row">
            <VerdictShape verdict={one.atBest} />
            <div>
              {one.sentence}
              <small className="outlook-units">{outlookText.units(one)}</small>
              <WhySaid of={outlookText.whyOf(one.first, one.second)} said={outlookText.why(one)} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
