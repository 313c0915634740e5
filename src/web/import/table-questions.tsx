/** What the table alone cannot say: the order of its dates, what its words and ratings stand for. */
import type { PlainTableReading, TableQuestion } from "../../api/plain-table.ts";
import { dateOrders } from "../../api/plain-table-date.ts";
import { ChoiceField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { askedText } from "../text/asked.ts";
import { importText } from "../text/import.ts";
import type { ImportForm } from "./import-form.ts";

type Asking = { reading: PlainTableReading; form: ImportForm; change: (part: Partial<ImportForm>) => void };

export function TableQuestions({ reading, form, change }: Asking) {
  const dates = reading.questions.find((one) => one.about === "dates");
  const words = reading.questions.find((one) => one.about === "words");
  const valued = reading.understood.form === "values";
  const wordsSaid = Object.keys(form.words);
  const others = reading.understood.columns.filter(
    ({ header, means }) => means === null || form.circumstances.includes(header),
  );
  const asks = dates || words || valued || form.dates !== "" || wordsSaid.length > 0 || others.length > 0;
  if (!asks) return null;
  return (
    <section aria-labelledby="questions-title">
      <h2 id="questions-title">{importText.questions}</h2>
      {(dates || form.dates !== "") && <DatesQuestion question={dates} form={form} change={change} />}
      {(words || wordsSaid.length > 0) && (
        <WordsQuestion question={words} words={words?.answers ?? wordsSaid} form={form} change={change} />
      )}
      {valued && <ValuesQuestion form={form} change={change} />}
      {others.length > 0 && (
        <CircumstancesQuestion headers={others.map((one) => one.header)} form={form} change={change} />
      )}
    </section>
  );
}

/** A column of numbers does not say what it is. */
function ValuesQuestion({ form, change }: Omit<Asking, "reading">) {
  const kinds = ["", "continuous", "tape", "ordinal", "binary", "area"] as const;
  return (
    <div className="fields">
      <ChoiceField
        label={importText.kind}
        value={form.kind}
        choices={kinds.map((value) => ({ value, label: importText.kinds[value] }))}
        onChoose={(kind) => change({ kind, scale: "", better: "" })}
      />
      {form.kind !== "" && form.kind !== "tape" && (
        <TextField
          label={importText.measured}
          hint={importText.measuredHint}
          value={form.measured}
          onType={(measured) => change({ measured })}
        />
      )}
      {form.kind === "ordinal" && (
        <ChoiceField
          label={importText.classes}
          value={form.scale}
          choices={(["", "iso2409", "iso10289"] as const).map((value) => ({ value, label: importText.scales[value] }))}
          onChoose={(scale) => change({ scale })}
        />
      )}
      {(form.kind === "continuous" || form.kind === "binary" || form.kind === "area") && (
        <ChoiceField
          label={importText.better}
          value={form.better}
          choices={betterChoices(form.kind)}
          onChoose={(better) => change({ better })}
        />
      )}
      {form.kind === "continuous" && (
        <TickField label={askedText.ratio} ticked={form.ratio} onTick={(ratio) => change({ ratio })} />
      )}
    </div>
  );
}

/** A measured number has no usual way; of areas less is better, and of words the good ones are. */
function betterChoices(kind: "continuous" | "binary" | "area") {
  const values = ["", "higher", "lower"] as const;
  const usual = { continuous: null, binary: "higher", area: "lower" }[kind];
  return values.filter((value) => value !== usual).map((value) => ({ value, label: importText.betters[kind][value] }));
}

function CircumstancesQuestion({ headers, form, change }: { headers: string[] } & Omit<Asking, "reading">) {
  const { circumstances } = form;
  return (
    <fieldset>
      <legend>{importText.circumstances}</legend>
      {headers.map((header) => (
        <TickField
          key={header}
          label={header}
          ticked={circumstances.includes(header)}
          onTick={(ticked) =>
            change({
              circumstances: ticked ? [...circumstances, header] : circumstances.filter((one) => one !== header),
            })
          }
        />
      ))}
    </fieldset>
  );
}

function DatesQuestion({ question, form, change }: Omit<Asking, "reading"> & { question: TableQuestion | undefined }) {
  const orders = question ? dateOrders.filter((order) => question.answers.includes(order)) : dateOrders;
  return (
    <ChoiceField
      label={question?.question ?? importText.choose}
      value={form.dates}
      choices={[
        { value: "", label: importText.choose },
        ...orders.map((order) => ({ value: order as string, label: importText.dates[order] })),
      ]}
      onChoose={(dates) => change({ dates })}
    />
  );
}

function WordsQuestion({
  question,
  words,
  form,
  change,
}: Omit<Asking, "reading"> & { question: TableQuestion | undefined; words: readonly string[] }) {
  return (
    <fieldset>
      <legend>{question?.question}</legend>
      <div className="fields">
        {words.map((word) => (
          <NumberField
            key={word}
            label={importText.word(word)}
            unit={importText.percent}
            value={form.words[word] ?? ""}
            onType={(percent) =>
              change({
                words: { ...Object.fromEntries(words.map((one) => [one, form.words[one] ?? ""])), [word]: percent },
              })
            }
          />
        ))}
      </div>
    </fieldset>
  );
}
