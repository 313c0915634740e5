/** What the trial showed, question by question; closed while the trial is blind. */
import { useRef } from "react";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { QuestionFindings } from "../../report/figures/question-findings.tsx";
import { VerdictLegend } from "../../report/figures/verdict-mark.tsx";
import "../../report/figures/figures.css";
import { findingsText } from "../text/findings.ts";
import { useDrawnWidth } from "./drawn-width.ts";
import { findingsAreOpen } from "./findings-are-open.ts";
import type { QuestionAnswer } from "./findings-work.ts";
import { NextTrialPart } from "./next-trial-part.tsx";
import { useFindings } from "./use-findings.ts";

export function FindingsSection({ record }: { record: TrialRecord }) {
  if (!findingsAreOpen(record))
    return (
      <p>
        <b>{findingsText.blind}</b> {findingsText.blindMore}
      </p>
    );
  if (record.plan.questions.length === 0) return <p>{findingsText.none}</p>;
  return <OpenFindings record={record} />;
}

function OpenFindings({ record }: { record: TrialRecord }) {
  const findings = useFindings(record);
  const frame = useRef<HTMLDivElement>(null);
  const widthPx = useDrawnWidth(frame);
  const count = record.plan.questions.length;
  if ("failure" in findings)
    return (
      <p role="alert" className="trouble">
        {findingsText.broken(findings.failure)}
      </p>
    );
  return (
    <div ref={frame} aria-busy={!findings.finished}>
      {widthPx !== null &&
        findings.answers.map((one) => <Answered key={JSON.stringify(one.declared)} answered={one} widthPx={widthPx} />)}
      {!findings.finished && (
        <p role="status" className="hint">
          {findingsText.computing}
        </p>
      )}
      {findings.finished && count > 1 && <p className="hint">{findingsText.several(count)}</p>}
      <details className="more">
        <summary>{findingsText.legend}</summary>
        <VerdictLegend />
      </details>
    </div>
  );
}

function Answered({ answered, widthPx }: { answered: QuestionAnswer; widthPx: number }) {
  if ("why" in answered) return <p>{findingsText.notYet(answered.declared.response, answered.why)}</p>;
  const { answer, frame, details, question } = answered;
  return (
    <>
      <QuestionFindings {...{ answer, frame, details }} width={widthPx} detailsOpen={false} />
      <NextTrialPart question={question} answer={answer} />
    </>
  );
}
