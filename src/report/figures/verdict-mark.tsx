/** A verdict is a word and a shape, the same five everywhere: never a colour alone, never a traffic light. */
import type { ReactNode } from "react";
import { type Verdict, verdicts } from "../../core/trial/finding.ts";
import { verdictMeaning } from "./figure-text.ts";

const shapes: Record<Verdict, ReactNode> = {
  shown: <circle cx="9" cy="9" r="7" className="fig-solid" />,
  suggested: (
    <>
      <circle cx="9" cy="9" r="7" className="fig-outline" />
      <path d="M9 2a7 7 0 0 0 0 14z" className="fig-solid" />
    </>
  ),
  "not told apart": <circle cx="9" cy="9" r="7" className="fig-outline" />,
  "equivalent within the margin": <path d="M2 6.2h14M2 11.8h14" className="fig-bars" />,
  "cannot be told": <path d="M3 3l12 12M15 3L3 15" className="fig-outline" />,
};

export function VerdictShape({ verdict }: { verdict: Verdict }) {
  return (
    <svg className="fig-verdict-shape" viewBox="0 0 18 18" aria-hidden="true">
      {shapes[verdict]}
    </svg>
  );
}

export function VerdictMark({ verdict }: { verdict: Verdict }) {
  return (
    <span className="fig-verdict">
      <VerdictShape verdict={verdict} />
      {verdict}
    </span>
  );
}

/** What the five words mean, once on a page. */
export function VerdictLegend() {
  return (
    <dl className="fig-legend">
      {verdicts.map((verdict) => (
        <div key={verdict}>
          <dt>
            <VerdictMark verdict={verdict} />
          </dt>
          <dd>{verdictMeaning[verdict]}</dd>
        </div>
      ))}
    </dl>
  );
}
