/** Brings a notebook: a plain table, what was understood of it, row by row what was not, and then a trial. */
import { useDeferredValue, useMemo, useState } from "react";
import { type PlainTableReading, readPlainTable } from "../../api/plain-table.ts";
import { decodeTable, maxTableBytes } from "../../api/plain-table-text.ts";
import type { TableReadingWishes } from "../../core/trial/plain-table.ts";
import { useDraft } from "../keep/draft.ts";
import { LongTextField } from "../parts/field.tsx";
import { newId } from "../shop/new-id.ts";
import { usePreferences } from "../shop/queries.ts";
import { importText } from "../text/import.ts";
import { type ImportForm, nothingSaid, startImport, wishesOf } from "./import-form.ts";
import { type Made, MakeTrialPart, TrialMade } from "./make-trial-part.tsx";
import { TableQuestions } from "./table-questions.tsx";
import { NotUnderstood, Understood } from "./understood.tsx";

export function ImportPage() {
  const preferences = usePreferences();
  const draft = useDraft("import", () => startImport(newId(), preferences.length));
  const [made, setMade] = useState<Made | null>(null);
  const { form, change } = draft;
  // A long table is read anew while somebody types in it: typing comes first.
  const text = useDeferredValue(form.text);
  const reading = useReading(text, wishesOf(form));
  if (made) return <TrialMade made={made} />;
  return (
    <main>
      <h1>{reading ? sentence(reading) : importText.start}</h1>
      <p className="lead">{importText.how}</p>
      <form noValidate onSubmit={(event) => event.preventDefault()}>
        <TableField form={form} change={change} />
        {reading && (
          <>
            <NotUnderstood reading={reading} />
            <Understood understood={reading.understood} />
            <TableQuestions reading={reading} form={form} change={change} />
            <MakeTrialPart
              reading={reading}
              form={form}
              change={change}
              onMade={(trial) => {
                draft.clear();
                setMade(trial);
              }}
            />
          </>
        )}
      </form>
    </main>
  );
}

function useReading(text: string, wishes: TableReadingWishes): PlainTableReading | null {
  // Wishes are made anew at every keystroke; the table is read anew when one of them changed.
  const said = JSON.stringify(wishes);
  const [kept, setKept] = useState({ said, wishes });
  if (kept.said !== said) setKept({ said, wishes });
  return useMemo(() => (text.trim() === "" ? null : readPlainTable(text, kept.wishes)), [text, kept]);
}

function sentence({ understood, problems, questions }: PlainTableReading): string {
  if (understood.rowsRead === 0 && questions.length > 0) return importText.waiting(problems.length);
  if (understood.rowsRead === 0) return problems.length > 0 ? importText.notRead(problems.length) : importText.nothing;
  return importText.understood(understood.rowsRead, understood.coupons, understood.treatments);
}

function TableField({ form, change }: { form: ImportForm; change: (part: Partial<ImportForm>) => void }) {
  const [refused, setRefused] = useState<string | null>(null);
  const take = async (file: File) => {
    if (file.size > maxTableBytes) return setRefused(importText.tooBig(file.size));
    const text = decodeTable(new Uint8Array(await file.arrayBuffer()));
    if (text === null) return setRefused(importText.notText);
    setRefused(null);
    // Another table is asked its own questions.
    change({ ...nothingSaid, again: false, text, name: form.name || file.name.replace(/\.[^.]*$/, "") });
  };
  return (
    <div className="pasted">
      <LongTextField
        label={importText.paste}
        hint={importText.pasteHint}
        placeholder={importText.example}
        rows={8}
        spellCheck={false}
        value={form.text}
        onType={(text) => change({ text })}
      />
      <div className="field">
        <label htmlFor="import-file">{importText.file}</label>
        <input
          id="import-file"
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          onChange={(event) => {
            const file = event.target.files?.[0];
            if (file) void take(file);
          }}
        />
        {refused && (
          <small role="alert" className="wrong">
            {refused}
          </small>
        )}
      </div>
    </div>
  );
}
