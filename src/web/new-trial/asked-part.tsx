/** What will be compared, declared before the first look, with the smallest difference that matters. */
import { offeredMargins } from "../../core/trial/offered-margins.ts";
import { ChoiceField, NumberField, TickField } from "../parts/field.tsx";
import { newTrialText } from "../text/new-trial.ts";
import type { FormPart, QuestionForm } from "./trial-form.ts";

const text = newTrialText.asked;

export function AskedPart({ form, change, errorAt }: FormPart) {
  const asked = form.questions.filter((one) => one.asked);
  const replace = (response: QuestionForm["response"], part: Partial<QuestionForm>) =>
    change({ questions: form.questions.map((one) => (one.response === response ? { ...one, ...part } : one)) });
  const listError = asked.length === 0 ? errorAt("/draft/questions") : null;
  return (
    <section aria-labelledby="asked-title">
      <h2 id="asked-title">{text.title}</h2>
      <p className="lead">{text.explain}</p>
      {form.questions.map((one) => (
        <fieldset key={one.response}>
          <legend className="sr-only">{text.responses[one.response]}</legend>
          <TickField
            label={text.responses[one.response]}
            ticked={one.asked}
            onTick={(ticked) => replace(one.response, { asked: ticked })}
          />
          {one.asked && (
            <AskedQuestion
              question={one}
              onChange={(part) => replace(one.response, part)}
              errorAt={(inner) => errorAt(`/draft/questions/${asked.indexOf(one)}${inner}`)}
            />
          )}
        </fieldset>
      ))}
      {listError && <p className="wrong">{listError}</p>}
    </section>
  );
}

function AskedQuestion({
  question: { response, family, margin, atDay },
  onChange,
  errorAt,
}: {
  question: QuestionForm;
  onChange: (part: Partial<QuestionForm>) => void;
  errorAt: (inner: string) => string | null;
}) {
  const offer = String(offeredMargins[response]);
  return (
    <div className="fields">
      <ChoiceField
        label={text.family}
        value={family}
        choices={[
          { value: "control", label: text.families.control },
          { value: "pairs", label: text.families.pairs },
        ]}
        onChoose={(chosen) => onChange({ family: chosen })}
        error={errorAt("/family")}
      />
      <div>
        <NumberField
          label={text.margin}
          unit={text.marginUnit[response]}
          hint={margin.trim() === "" ? text.marginNone : undefined}
          value={margin}
          onType={(typed) => onChange({ margin: typed })}
          error={errorAt("/margin")}
        />
        {margin.trim() === "" && (
          <button type="button" className="quiet" onClick={() => onChange({ margin: offer })}>
            {text.takeOffer(`${offer} ${text.marginUnit[response]}`)}
          </button>
        )}
      </div>
      {response === "rusted area" && (
        <NumberField
          label={text.atDay}
          hint={text.atDayHint}
          value={atDay}
          onType={(typed) => onChange({ atDay: typed })}
          error={errorAt("/atDay")}
        />
      )}
    </div>
  );
}
