/** The last questions (control, witness, size), and the trial. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import { importedTrial, type NewImport } from "../../api/import.ts";
import type { PlainTableReading } from "../../api/plain-table.ts";
import { useAuthor } from "../keep/author.ts";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { ask, json } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { importText } from "../text/import.ts";
import { type ImportForm, importOf } from "./import-form.ts";
import { TrialFields } from "./trial-fields.tsx";

export function MakeTrialPart({
  reading,
  form,
  change,
  onMade,
}: {
  reading: PlainTableReading;
  form: ImportForm;
  change: (part: Partial<ImportForm>) => void;
  onMade: (made: Made) => void;
}) {
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [asked, setAsked] = useState(false);
  const client = useQueryClient();
  const make = useMutation({
    mutationFn: (request: NewImport) => ask(importedTrial, "/api/import", json("POST", request)),
    onSuccess: (made) => {
      void client.invalidateQueries();
      onMade(made);
    },
  });
  const { request, missing } = importOf(form, author);
  const wrongAt = (pointer: string) => (asked ? missing[pointer] : undefined) ?? errorAt(make.error, pointer);
  return (
    <section aria-label={importText.make}>
      <TrialFields reading={reading} form={form} change={change} wrongAt={wrongAt} />
      {asksName && <AuthorField error={wrongAt("/by")} />}
      <Trouble error={make.error} shown={shownFields} />
      {errorAt(make.error, "/again") && (
        <label className="tick">
          <input type="checkbox" checked={form.again} onChange={(event) => change({ again: event.target.checked })} />
          {importText.again}
        </label>
      )}
      {reading.table === null && <p className="hint">{importText.needs.table}</p>}
      <div className="actions">
        <button
          type="button"
          className="wet"
          disabled={reading.table === null || make.isPending}
          onClick={() => {
            setAsked(true);
            if (request) make.mutate(request);
          }}
        >
          {make.isPending ? importText.making : importText.make}
        </button>
      </div>
    </section>
  );
}

const shownFields = ["/name", "/by", "/question", "/couponSize", "/edgeBandMm", "/startedOn", "/ask"];

export type Made = { id: string; observations: number };

/** What became of the table. */
export function TrialMade({ made }: { made: Made }) {
  return (
    <main>
      <h1>{importText.made(made.observations)}</h1>
      <Link href={`/trials/${made.id}`} className="button wet">
        {importText.open}
      </Link>
    </main>
  );
}
