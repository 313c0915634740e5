/** What a trial needs to know and a table does not say. */
import type { PlainTableReading } from "../../api/plain-table.ts";
import { rustScales } from "../../core/trial/scale-ends.ts";
import { askedOfTable } from "../../core/trial/trial-from-table.ts";
import { ChoiceField, LongTextField, NumberField, TextField } from "../parts/field.tsx";
import { askedText, marginUnit } from "../text/asked.ts";
import { importText } from "../text/import.ts";
import { askOf, type ImportForm } from "./import-form.ts";

type Fields = {
  reading: PlainTableReading;
  form: ImportForm;
  change: (part: Partial<ImportForm>) => void;
  wrongAt: (pointer: string) => string | null;
};

export function TrialFields(fields: Fields) {
  const { form, change, wrongAt } = fields;
  return (
    <>
      <ComparisonFields {...fields} />
      <SizeFields {...fields} />
      <TextField
        label={importText.startedOn}
        type="date"
        value={form.startedOn}
        onType={(startedOn) => change({ startedOn })}
        error={wrongAt("/startedOn")}
      />
      <LongTextField
        label={importText.question}
        rows={2}
        value={form.question}
        onType={(question) => change({ question })}
        error={wrongAt("/question")}
      />
      <TextField
        label={importText.name}
        value={form.name}
        onType={(name) => change({ name })}
        error={wrongAt("/name")}
      />
    </>
  );
}

function ComparisonFields({ reading, form, change, wrongAt }: Fields) {
  const named = reading.understood.treatments.map((name) => ({ value: name, label: name }));
  const { table } = reading;
  const unit = table ? marginUnit({ ...askedOfTable(table, askOf(form)), family: "pairs", margin: null }) : "";
  return (
    <>
      <ChoiceField
        label={importText.control}
        hint={importText.controlHint}
        value={form.control}
        choices={[{ value: "", label: importText.noControl }, ...named]}
        onChoose={(control) => change({ control })}
        error={wrongAt("/ask/control")}
      />
      <ChoiceField
        label={importText.witness}
        value={form.witness}
        choices={[{ value: "", label: importText.noWitness }, ...named]}
        onChoose={(witness) => change({ witness })}
        error={wrongAt("/ask/witness")}
      />
      {reading.understood.form === "looks" && (
        <LooksResponse reading={reading} form={form} change={change} wrongAt={wrongAt} />
      )}
      <NumberField
        label={importText.margin}
        unit={unit}
        hint={importText.marginHint}
        value={form.margin}
        onType={(margin) => change({ margin })}
        error={wrongAt("/ask/margin")}
      />
      <ChoiceField
        label={importText.separately}
        hint={importText.separatelyHint}
        value={form.separately}
        choices={(["", "yes", "unknown"] as const).map((value) => ({ value, label: importText.separate[value] }))}
        onChoose={(separately) => change({ separately })}
        error={wrongAt("/ask/treatedSeparately")}
      />
    </>
  );
}

/** A class does not say how large an area is; a percent has a grade on any scale. */
function LooksResponse({ reading, form, change, wrongAt }: Fields) {
  const rated = reading.understood.columns.some((one) => one.means === "rating");
  const choices = rated ? (["time", "grade"] as const) : (["time", "area", "grade"] as const);
  return (
    <>
      <ChoiceField
        label={importText.response}
        value={form.response}
        choices={choices.map((value) => ({ value, label: importText.responses[value] }))}
        onChoose={(response) => change({ response })}
        error={wrongAt("/ask/response")}
      />
      {(rated || form.response === "grade") && (
        <ChoiceField
          label={askedText.scale}
          value={form.scale === "" ? "iso10289" : form.scale}
          choices={rustScales.map((value) => ({ value, label: askedText.scales[value] }))}
          onChoose={(scale) => change({ scale })}
          error={wrongAt("/ask/scale")}
        />
      )}
    </>
  );
}

function SizeFields({ form, change, wrongAt }: Fields) {
  return (
    <div className="fields">
      <NumberField
        label={importText.length}
        unit={form.lengthUnit}
        value={form.couponLength}
        onType={(couponLength) => change({ couponLength })}
        error={wrongAt("/couponSize/lengthMm")}
      />
      <NumberField
        label={importText.width}
        unit={form.lengthUnit}
        value={form.couponWidth}
        onType={(couponWidth) => change({ couponWidth })}
        error={wrongAt("/couponSize/widthMm")}
      />
      <NumberField
        label={importText.thickness}
        unit={form.lengthUnit}
        value={form.couponThickness}
        onType={(couponThickness) => change({ couponThickness })}
        error={wrongAt("/couponSize/thicknessMm")}
      />
      <NumberField
        label={importText.edgeBand}
        unit={form.lengthUnit}
        value={form.edgeBand}
        onType={(edgeBand) => change({ edgeBand })}
        error={wrongAt("/edgeBandMm")}
      />
    </div>
  );
}
