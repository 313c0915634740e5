/** One thing that was written down: what, when, by whom; corrected or withdrawn only with a reason. */
import { type ReactNode, useState } from "react";
import type { ObservationBody, Observed } from "../../core/trial/trial-record.ts";
import { writtenAt } from "../../core/trial/written-at.ts";
import { instantText, recordText } from "../text/parts.ts";
import { ObserveForm } from "./observe-form.tsx";

export function RecordRow({
  trialId,
  observed,
  children,
  form,
}: {
  trialId: string;
  observed: Observed<ObservationBody>;
  children: ReactNode;
  /** The form that corrects it, already filled with what stands. */
  form?: (onWritten: () => void) => ReactNode;
}) {
  const [open, setOpen] = useState(false);
  return (
    <li className="record">
      {children}
      <details className="more" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          <span className="when">
            {recordText.by(observed.by, instantText(writtenAt(observed)))}
            {observed.corrects && ` · ${recordText.corrected(observed.corrects.why)}`}
          </span>
          {recordText.correct}
        </summary>
        {open && (
          <div className="inside">
            {form?.(() => setOpen(false))}
            <details className="more">
              <summary>{recordText.withdraw}</summary>
              <WithdrawForm trialId={trialId} observed={observed} />
            </details>
          </div>
        )}
      </details>
    </li>
  );
}

function WithdrawForm({ trialId, observed }: { trialId: string; observed: Observed<ObservationBody> }) {
  return (
    <ObserveForm
      trialId={trialId}
      about="withdraw"
      corrects={observed}
      start={() => ({})}
      fill={() => ({ bodies: [{ kind: "withdrawal" }] })}
      fields={() => null}
      submit={recordText.withdrawGo}
      whyLabel={recordText.withdrawWhy}
    />
  );
}
