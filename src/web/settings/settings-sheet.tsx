/** Units, chosen once for the shop, and the name of who writes on this device. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { setAuthor, useAuthor } from "../keep/author.ts";
import { TextField } from "../parts/field.tsx";
import { Sheet } from "../parts/sheet.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { DeviceStanding } from "../sharing/device-standing.tsx";
import { useMe } from "../sharing/sharing-queries.ts";
import { json, tell } from "../shop/ask.ts";
import { useShop } from "../shop/queries.ts";
import { settingsText } from "../text/shell.ts";

export function SettingsSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  const me = useMe().data;
  // Units are the whole shop's, so they are the owner's to choose.
  const mayChoose = me === undefined || me.device.role === "owner";
  return (
    <Sheet title={settingsText.title} open={open} onClose={onClose}>
      {mayChoose && (
        <>
          <p>{settingsText.sentence}</p>
          <UnitsForm onKept={onClose} />
          <hr />
        </>
      )}
      <AuthorField />
      <hr />
      <DeviceStanding onGo={onClose} />
    </Sheet>
  );
}

export function AuthorField({ error = null }: { error?: string | null }) {
  const author = useAuthor();
  return (
    <TextField
      label={settingsText.you}
      hint={settingsText.youHint}
      value={author}
      onType={setAuthor}
      error={error}
      autoComplete="name"
    />
  );
}

function UnitsForm({ onKept }: { onKept: () => void }) {
  const kept = useShop().data?.preferences ?? siPreferences;
  const [chosen, setChosen] = useState<Preferences>(kept);
  const client = useQueryClient();
  const save = useMutation({
    mutationFn: () => tell("/api/shop/preferences", json("PUT", chosen)),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ["shop"] });
      onKept();
    },
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        save.mutate();
      }}
    >
      <UnitChoice
        label={settingsText.temp}
        options={["°C", "°F"]}
        chosen={chosen.temp}
        onChoose={(temp) => setChosen({ ...chosen, temp })}
      />
      <UnitChoice
        label={settingsText.length}
        options={["mm", "in"]}
        chosen={chosen.length}
        onChoose={(length) => setChosen({ ...chosen, length })}
      />
      <UnitChoice
        label={settingsText.mass}
        options={["g", "oz"]}
        chosen={chosen.mass}
        onChoose={(mass) => setChosen({ ...chosen, mass })}
      />
      <Trouble error={save.error} />
      <button type="submit" disabled={save.isPending}>
        {settingsText.save}
      </button>
    </form>
  );
}

function UnitChoice<Unit extends string>({
  label,
  options,
  chosen,
  onChoose,
}: {
  label: string;
  options: readonly Unit[];
  chosen: Unit;
  onChoose: (unit: Unit) => void;
}) {
  return (
    <fieldset className="either">
      <legend>{label}</legend>
      {options.map((unit) => (
        <label key={unit}>
          <input type="radio" name={label} checked={unit === chosen} onChange={() => onChoose(unit)} />
          <span>{unit === "in" ? settingsText.inch : unit}</span>
        </label>
      ))}
    </fieldset>
  );
}
