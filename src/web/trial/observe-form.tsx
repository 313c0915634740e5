/** The frame of every form that writes something down: who, why (a correction), what was refused, and the sending. */
import { type ReactNode, useState } from "react";
import type { Observation, ObservationBody } from "../../core/trial/trial-record.ts";
import { useAuthor } from "../keep/author.ts";
import type { Draft } from "../keep/draft.ts";
import { forgetIds, sendingId } from "../keep/sending-ids.ts";
import { TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { useObserve } from "../shop/queries.ts";
import { recordText } from "../text/parts.ts";

/** What is still missing, by field; empty: the bodies are whole. */
export type Filled<Field extends string> =
  | { bodies: ObservationBody[]; missing?: never }
  | { bodies?: never; missing: Partial<Record<Field, string>> };

export type Corrected = Pick<Observation, "id"> | null;

export function ObserveForm<Form extends { why: string }, Field extends string>({
  trialId,
  draftKey,
  draft,
  corrects,
  fill,
  submit,
  fields,
  shown,
  onWritten,
  whyLabel = recordText.why,
}: {
  trialId: string;
  draftKey: string;
  draft: Draft<Form>;
  corrects: Corrected;
  fill: () => Filled<Field>;
  submit: string;
  /** Draws the fields with what is missing beside each, and what the server refused. */
  fields: (missing: Partial<Record<Field, string>>, error: unknown) => ReactNode;
  /** Pointers whose refusals the fields show themselves. */
  shown: readonly string[];
  onWritten?: (() => void) | undefined;
  whyLabel?: string;
}) {
  const [missing, setMissing] = useState<Partial<Record<Field, string>>>({});
  const [unsigned, setUnsigned] = useState<{ why?: string; by?: string }>({});
  const [written, setWritten] = useState(false);
  const author = useAuthor();
  // Once the name is there the field goes, but not while it is being typed.
  const [asksName] = useState(author === "");
  const observe = useObserve(trialId);

  const send = () => {
    setWritten(false);
    const filled = fill();
    const lacking = {
      ...(corrects && draft.form.why.trim() === "" ? { why: recordText.whyMissing } : {}),
      ...(author.trim() === "" ? { by: recordText.youMissing } : {}),
    };
    setMissing(filled.missing ?? {});
    setUnsigned(lacking);
    if (!filled.bodies || Object.keys(lacking).length > 0) return;
    const correction = corrects && { id: corrects.id, why: draft.form.why.trim() };
    const observations = filled.bodies.map((body) => ({
      id: sendingId(draftKey, { body, correction }),
      by: author.trim(),
      corrects: correction,
      body,
    }));
    observe.mutate(observations, {
      onSuccess: () => {
        forgetIds(draftKey);
        draft.clear();
        setWritten(true);
        onWritten?.();
      },
    });
  };

  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      {fields(missing, observe.error)}
      {corrects && (
        <TextField
          label={whyLabel}
          value={draft.form.why}
          onType={(why) => draft.change({ ...draft.form, why })}
          error={unsigned.why}
        />
      )}
      {asksName && <AuthorField error={unsigned.by ?? null} />}
      <Trouble error={observe.error} shown={shown} />
      <div className="actions">
        <button type="submit" className="wet" disabled={observe.isPending}>
          {observe.isPending ? recordText.sending : submit}
        </button>
        <span role="status">{written ? recordText.written : ""}</span>
      </div>
    </form>
  );
}
