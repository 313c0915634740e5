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
  date: string;
  onChange: (id: string, part: Partial<BatchRow>) => void;
}) {
  const { record, rows, face, date, onChange } = props;
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [unsigned, setUnsigned] = useState(false);
  const observe = useObserve(record.id);
  const right = rows.filter(isToWrite);
  if (!rows.some(({ state }) => state.is === "measured") || rows.some(isUnderWay)) return null;
  const write = async () => {
    setUnsigned(author.trim() === "");
    if (author.trim() === "") return;
    // One after another: what was taken stays taken when a later one is refused.
    for (const row of right) {
      const looked = lookOfRow(row, { face, date, by: author.trim(), blind: !record.unblinded });
      if (!looked) continue;
      await observe.mutateAsync([looked.observation]);
      onChange(row.id, { state: { is: "written", measurement: looked.measurement } });
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
) {
  if (state.is !== "measured" || coupon === null) return null;
  const { measurement } = state;
  const { id, rustedPercent, edgePercent } = measurement;
  const observation: NewObservation = {
    ...{ id: look, by, corrects: null },
    body: {
      kind: "look",
      coupon,
      face,
      when: { date },
      blind,
      rustedPercent,
      edgePercent,
      how: "photo",
      measurement: id,
    },
  };
  return { observation, measurement };
}
