/** The question in the user's own words. */
import { LongTextField, TextField } from "../parts/field.tsx";
import { newTrialText } from "../text/new-trial.ts";
import type { FormPart } from "./trial-form.ts";

const text = newTrialText.question;

export function QuestionPart(part: FormPart) {
  const { form, change, errorAt } = part;
  return (
    <section aria-labelledby="question-title">
      <h2 id="question-title">{text.title}</h2>
      <QuestionWords {...part} />
      <TextField
        label={text.name}
        hint={text.nameHint}
        value={form.name}
        onType={(name) => change({ name })}
        error={errorAt("/name")}
      />
    </section>
  );
}

export function QuestionWords({ form, change, errorAt }: FormPart) {
  return (
    <LongTextField
      label={text.words}
      hint={text.wordsHint}
      placeholder={text.wordsExample}
      value={form.question}
      onType={(question) => change({ question })}
      error={errorAt("/draft/question")}
    />
  );
}
