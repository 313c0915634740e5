/** An observation that the shop refused, to be put right and sent again in its old place. */
import { useState } from "react";
import { TextField } from "../parts/field.tsx";
import { waitingText } from "../text/waiting.ts";
import { mendableFields, mended } from "./mendable-fields.ts";
import { refusalInWords } from "./refusal-words.ts";
import { sendWaiting } from "./send-waiting.ts";
import type { WaitingObservation } from "./waiting-item.ts";
import { replaceWaiting } from "./waiting-store.ts";

export function MendForm({ item, onDone }: { item: WaitingObservation; onDone: () => void }) {
  const [fields, setFields] = useState(() => mendableFields(item.observation));
  const [wrong, setWrong] = useState(false);
  const saidOf = (pointer: string) => {
    const said = item.refused?.errors?.find((one) => one.pointer === pointer);
    return said ? refusalInWords(said.detail) : null;
  };
  const send = async () => {
    const observation = mended(item.observation, fields);
    setWrong(observation === null);
    if (observation === null) return;
    await replaceWaiting({ ...item, observation, refused: null });
    onDone();
    void sendWaiting();
  };
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      {fields.map((field, at) => (
        <TextField
          key={field.path.join("/")}
          label={field.label}
          value={field.text}
          onType={(text) => setFields(fields.map((one, other) => (other === at ? { ...one, text } : one)))}
          error={saidOf(`/body/${field.path.join("/")}`)}
        />
      ))}
      {wrong && (
        <p role="alert" className="trouble">
          {waitingText.noObservation}
        </p>
      )}
      <div className="actions">
        <button type="submit">{waitingText.mended}</button>
        <button type="button" className="quiet" onClick={onDone}>
          {waitingText.back}
        </button>
      </div>
    </form>
  );
}
