/** The last questions (control, witness, name), and the trial. */
import type { PlainTableReading } from "../../api/plain-table.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { importText } from "../text/import.ts";
import type { ImportForm } from "./import-form.ts";

export function MakeTrialPart({
  reading,
  form,
  change,
  onMade,
}: {
  reading: PlainTableReading;
  form: ImportForm;
  change: (part: Partial<ImportForm>) => void;
  onMade: () => void;
}) {
  void onMade;
  const { treatments } = reading.understood;
  const named = treatments.map((name) => ({ value: name, label: name }));
  return (
    <section aria-label={importText.make}>
      <ChoiceField
        label={importText.control}
        hint={importText.controlHint}
        value={form.control}
        choices={[{ value: "", label: importText.noControl }, ...named]}
        onChoose={(control) => change({ control })}
      />
      <ChoiceField
        label={importText.witness}
        value={form.witness}
        choices={[{ value: "", label: importText.noWitness }, ...named]}
        onChoose={(witness) => change({ witness })}
      />
      <TextField label={importText.name} value={form.name} onType={(name) => change({ name })} />
    </section>
  );
}
