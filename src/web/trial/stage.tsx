/** One stage of the trial page: its heading is where the line in the margin leads. */
import type { ReactNode } from "react";
import { trialText } from "../text/trial.ts";
import type { StageId } from "./stages.ts";

export function StageSection({ id, sentence, children }: { id: StageId; sentence?: string; children?: ReactNode }) {
  return (
    <section className="stage" id={id} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{trialText.stages[id]}</h2>
      {sentence && <p className="sentence">{sentence}</p>}
      {children}
    </section>
  );
}

/** Opened on demand, and only then in the page: a form that nobody needs now stays out of the way. */
export function More({ label, children }: { label: string; children: ReactNode }) {
  return (
    <details className="more">
      <summary>{label}</summary>
      <div className="inside">{children}</div>
    </details>
  );
}
