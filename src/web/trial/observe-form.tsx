/**
 * The frame of every form that writes something down: the kept draft, who, why (a correction), what is missing or was
 * refused beside its field, and the sending. A form says what it starts with, draws its fields, and fills a body.
 */
import { type ReactNode, useState } from "react";
import type { Observation, ObservationBody, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { useAuthor } from "../keep/author.ts";
import { useDraft } from "../keep/draft.ts";
import { forgetIds, sendingId } from "../keep/sending-ids.ts";
import { TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { errorAt as refusedAt } from "../shop/field-errors.ts";
import { useObserve } from "../shop/queries.ts";
import { recordText } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import { recordReading, type Written } from "../waiting/send-waiting.ts";
import type { LaterReading } from "../waiting/waiting-item.ts";

/** What is still missing, by field; without it the bodies are whole. `later`: what the shop reads when it is reached. */
export type Filled<Field extends string> =
  | { bodies: ObservationBody[]; later?: LaterReading | null; missing?: never }
  | { bodies?: never; later?: never; missing: Partial<Record<Field, string | false>> };

/** What a form's fields are drawn from. */
export type FormFields<Form, Field extends string> = {
  form: Form;
  change: (part: Partial<Form>) => void;
  /** What is missing in a field, or what the server refused there. */
  errorAt: (field: Field) => string | null;
};

/** What a form about one kind of observation takes: nothing to correct means a new one. */
export type ObserveFormProps<Body extends ObservationBody> = {
  record: TrialRecord;
  corrects?: Observed<Body> | null;
  onWritten?: (() => void) | undefined;
};

export function ObserveForm<Form extends object, Field extends string = never>({
  trialId,
  about,
  corrects = null,
  start,
  fill,
  shown = [],
  fields,
  submit,
  onWritten,
  whyLabel = recordText.why,
}: {
  trialId: string;
  /** Names the draft on this device; a correction keeps a draft of its own. */
  about: string;
  corrects?: Pick<Observation, "id"> | null;
  start: () => Form;
  fill: (form: Form) => Filled<Field>;
  /** The fields that show their own errors, named as in the body. */
  shown?: readonly Field[];
  fields: (drawn: FormFields<Form, Field>) => ReactNode;
  submit: string;
  onWritten?: (() => void) | undefined;
  whyLabel?: string;
}) {
  const draftKey = `${about} ${trialId} ${corrects?.id ?? "new"}`;
  const draft = useDraft(draftKey, start);
  // Until something is typed the form starts from what is known now, not from what was known when the page opened.
  const form = draft.begun ? draft.form : start();
  const change = (part: Partial<Form>) => draft.change(draft.begun ? part : { ...form, ...part });
  const reason = useDraft(`why ${draftKey}`, () => ({ why: "" }));
  const [missing, setMissing] = useState<Partial<Record<string, string | false>>>({});
  const [unsigned, setUnsigned] = useState<{ why?: string; by?: string }>({});
  const [written, setWritten] = useState<Written | null>(null);
  const author = useAuthor();
  // Once the name is there the field goes, but not while it is being typed.
  const [asksName] = useState(author === "");
  const observe = useObserve(trialId);
  const [notKept, setNotKept] = useState<unknown>(null);

  const send = () => {
    setWritten(null);
    const filled = fill(form);
    const lacking = {
      ...(corrects && reason.form.why.trim() === "" ? { why: recordText.whyMissing } : {}),
      ...(author.trim() === "" ? { by: recordText.youMissing } : {}),
    };
    setMissing(filled.missing ?? {});
    setUnsigned(lacking);
    if (!filled.bodies || Object.keys(lacking).length > 0) return;
    const correction = corrects && { id: corrects.id, why: reason.form.why.trim() };
    const observations = filled.bodies.map((body) => ({
      id: sendingId(draftKey, { body, correction }),
      by: author.trim(),
      corrects: correction,
      body,
    }));
    observe.mutate(observations, {
      onSuccess: async (outcome) => {
        const { later = null } = filled;
        const first = observations[0];
        const replaces = first ? { id: first.id, why: waitingText.readLater } : correction;
        const said = { id: sendingId(draftKey, { later }), by: author.trim(), corrects: replaces };
        // The form keeps what was typed until all of it is kept elsewhere.
        if (later && !(await keptLater({ ...said, trial: trialId, reading: later }, setNotKept))) return;
        forgetIds(draftKey);
        draft.clear();
        reason.clear();
        setWritten(later ? "waiting" : outcome);
        onWritten?.();
      },
    });
  };

  const errorAt = (field: Field) => missing[field] || refusedAt(observe.error, pointerOf(field));

  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      {fields({ form, change, errorAt })}
      {corrects && (
        <TextField
          label={whyLabel}
          value={reason.form.why}
          onType={(why) => reason.change({ why })}
          error={unsigned.why}
        />
      )}
      {asksName && <AuthorField error={unsigned.by ?? null} />}
      <Trouble error={observe.error ?? notKept} shown={shown.map(pointerOf)} />
      <div className="actions">
        <button type="submit" className="wet" disabled={observe.isPending}>
          {observe.isPending ? recordText.sending : submit}
        </button>
        {/* Gone once the next one is begun: beside a half-typed form it would vouch for that one. */}
        <span role="status">{written && !draft.begun ? recordText.written[written] : ""}</span>
      </div>
    </form>
  );
}

async function keptLater(
  reading: Parameters<typeof recordReading>[0],
  tell: (failure: unknown) => void,
): Promise<boolean> {
  try {
    await recordReading(reading);
    return true;
  } catch (failure) {
    tell(failure);
    return false;
  }
}

const pointerOf = (field: string) => `/body/${field}`;
