/** Name, finish and light, who: the strokes become a version, and the trial is read by it where that is wished. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import type { BrushStroke, ShopModelName } from "../../api/photo.ts";
import { modelToSave, savedModel } from "../../api/rust-model.ts";
import { useAuthor } from "../keep/author.ts";
import { TextField, TickField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { ask, json } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { useChooseModel } from "../shop/rust-models.ts";
import { teachText as text } from "../text/reading.ts";

type Kept = {
  trial: string;
  measurement: string;
  strokes: BrushStroke[];
  from: ShopModelName | null;
  onKept: () => void;
};

export function KeepVersion({ trial, measurement, strokes, from, onKept }: Kept) {
  const [name, setName] = useState(from?.name ?? "");
  const [finishAndLight, setLight] = useState("");
  const [isChosen, setChosen] = useState(true);
  const [lacking, setLacking] = useState<{ name?: string; light?: string; by?: string }>({});
  const by = useAuthor();
  const client = useQueryClient();
  const choose = useChooseModel(trial);
  const save = useMutation({
    mutationFn: async () => {
      const asked = { name, finishAndLight, by, measurement, strokes, ...(from ? { from } : {}) };
      const saved = await ask(savedModel, "/api/rust-models", json("POST", modelToSave.parse(asked)));
      await client.invalidateQueries({ queryKey: ["rust models"] });
      if (isChosen) await choose.mutateAsync({ shopModel: { name: saved.name, version: saved.version } });
    },
    onSuccess: onKept,
  });
  const submit = () => {
    const missing = {
      ...(name.trim() === "" ? { name: text.nameMissing } : {}),
      ...(finishAndLight.trim() === "" ? { light: text.lightMissing } : {}),
      ...(by.trim() === "" ? { by: text.youMissing } : {}),
    };
    setLacking(missing);
    if (Object.keys(missing).length === 0) save.mutate();
  };
  return (
    <>
      <h2>{text.keepTitle}</h2>
      <TextField
        label={text.name}
        hint={text.nameHint}
        value={name}
        onType={setName}
        error={lacking.name ?? errorAt(save.error, "/name")}
      />
      <TextField
        label={text.light}
        hint={text.lightHint}
        value={finishAndLight}
        onType={setLight}
        error={lacking.light ?? errorAt(save.error, "/finishAndLight")}
      />
      <AuthorField error={lacking.by ?? errorAt(save.error, "/by")} />
      <TickField label={text.choose} ticked={isChosen} onTick={setChosen} />
      <Trouble error={save.error} shown={["/name", "/finishAndLight", "/by"]} />
      <div className="actions">
        <button type="button" className="wet" disabled={save.isPending} onClick={submit}>
          {text.keep}
        </button>
      </div>
    </>
  );
}
