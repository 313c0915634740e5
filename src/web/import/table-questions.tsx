/** What the table alone cannot say: the order of its dates, what its words and ratings stand for. */
import type { PlainTableReading, TableQuestion } from "../../api/plain-table.ts";
import { dateOrders } from "../../api/plain-table-date.ts";
import { ChoiceField, NumberField, TickField } from "../parts/field.tsx";
import { importText } from "../text/import.ts";
import type { ImportForm } from "./import-form.ts";

type Asking = { reading: PlainTableReading; form: ImportForm; change: (part: Partial<ImportForm>) => void };

export function TableQuestions({ reading, form, change }: Asking) {
  const dates = reading.questions.find((one) => one.about === "dates");
  const words = reading.questions.find((one) => one.about === "words");
  const valued = reading.understood.form === "values";
  const wordsSaid = Object.keys(form.words);
  if (!dates && !words && !valued && form.dates === "" && wordsSaid.length === 0) return null;
  return (
    <section aria-labelledby="questions-title">
      <h2 id="questions-title">{importText.questions}</h2>
      {(dates || form.dates !== "") && <DatesQuestion question={dates} form={form} change={change} />}
      {(words || wordsSaid.length > 0) && (
        <WordsQuestion question={words} words={words?.answers ?? wordsSaid} form={form} change={change} />
      )}
      {valued && <TickField label={importText.tape} ticked={form.tape} onTick={(tape) => change({ tape })} />}
    </section>
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
