/** The looks of all photographs that look right, written down as one after another would be. */
import { useState } from "react";
import type { NewObservation } from "../../api/observation.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { useAuthor } from "../keep/author.ts";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { useObserve } from "../shop/queries.ts";
import { batchText as text } from "../text/batch.ts";
import { inspectText } from "../text/inspect.ts";
import { type BatchRow, isToWrite, isUnderWay } from "./batch-rows.ts";

export function WriteLooks(props: {
  record: TrialRecord;
  rows: BatchRow[];
  face: "front" | "back";
  dateOf: (row: BatchRow) => string;
  onChange: (id: string, part: Partial<BatchRow>) => void;
}) {
  const { record, rows, face, dateOf, onChange } = props;
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [unsigned, setUnsigned] = useState(false);
  const observe = useObserve(record.id);
  const right = rows.filter(isToWrite);
  const isOpen = rows.some(({ state, isWritten }) => state.is === "measured" && !isWritten);
  if (!isOpen || rows.some(isUnderWay)) return null;
  const write = async () => {
    setUnsigned(author.trim() === "");
    if (author.trim() === "") return;
    // One after another: what was taken stays taken when a later one is refused.
    for (const row of right) {
      const date = dateOf(row);
      const look = lookOfRow(row, { face, date, by: author.trim(), blind: !record.unblinded });
      if (!look) continue;
      await observe.mutateAsync([look]);
      onChange(row.id, { isWritten: true, date });
    }
  };
  return (
    <section>
      {asksName && <AuthorField error={unsigned ? inspectText.youMissing : null} />}
      <Trouble error={observe.error} />
      {right.length === 0 && <p className="hint">{text.nothingToWrite}</p>}
      <div className="actions">
        <button
          type="button"
          className="wet"
          disabled={right.length === 0 || observe.isPending}
          // What is refused stands above the button.
          onClick={() => void write().catch(() => undefined)}
        >
          {observe.isPending ? text.writing : text.write(right.length)}
        </button>
      </div>
    </section>
  );
}

function lookOfRow(
  { coupon, look, state }: BatchRow,
  { face, date, by, blind }: { face: "front" | "back"; date: string; by: string; blind: boolean },
): NewObservation | null {
  if (state.is !== "measured" || coupon === null) return null;
  const { id: measurement, rustedPercent, edgePercent } = state.measurement;
  return {
    ...{ id: look, by, corrects: null },
    body: {
      ...{ kind: "look", coupon, face, when: { date }, blind },
      ...{ rustedPercent, edgePercent, how: "photo", measurement },
    },
  };
}
