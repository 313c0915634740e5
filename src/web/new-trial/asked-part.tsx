/** What will be compared, declared before the first look, with the smallest difference that matters. */
import { marginKind } from "../../core/trial/declared-question.ts";
import { offeredMargins } from "../../core/trial/offered-margins.ts";
import { ChoiceField, NumberField, TickField } from "../parts/field.tsx";
import { marginUnit, askedText as text } from "../text/asked.ts";
import { type AskedForm, blankAsked, declaredOf, isOrdered } from "./asked-form.ts";
import { AskedValueFields } from "./asked-value-fields.tsx";
import { comparedNames, type FormPart } from "./trial-form.ts";

/** These are asked of nearly every trial; the others stand folded below them. */
const usual: readonly AskedForm["response"][] = ["time to first rust", "rusted area", "tape class"];

export function AskedPart({ form, change, errorAt }: FormPart) {
  const asked = form.asked.filter((one) => one.asked);
  const others = form.asked.filter((one) => !usual.includes(one.response));
  const listError = asked.length === 0 ? errorAt("/draft/questions") : null;
  const question = (one: AskedForm) => (
    <AskedQuestion
      key={form.asked.indexOf(one)}
      question={one}
      onChange={(part) => change({ asked: form.asked.map((other) => (other === one ? { ...other, ...part } : other)) })}
      ordered={comparedNames(form)}
      onRemove={
        one.response === "value" && others.filter(({ response }) => response === "value").length > 1
          ? () => change({ asked: form.asked.filter((other) => other !== one) })
          : null
      }
      errorAt={(inner) => errorAt(`/draft/questions/${asked.indexOf(one)}${inner}`)}
    />
  );
  return (
    <section aria-labelledby="asked-title">
      <h2 id="asked-title">{text.title}</h2>
      <p className="lead">{text.explain}</p>
      {form.asked.filter((one) => usual.includes(one.response)).map(question)}
      <details className="more" open={others.some((one) => one.asked)}>
        <summary>{text.more}</summary>
        {others.map(question)}
        <button
          type="button"
          className="quiet"
          onClick={() => change({ asked: [...form.asked, { ...blankAsked("value"), asked: true }] })}
        >
          {text.another}
        </button>
      </details>
      {listError && <p className="wrong">{listError}</p>}
    </section>
  );
}

type QuestionPart = {
  question: AskedForm;
  /** The compared treatments as they stand in the form. */
  ordered: readonly string[];
  onChange: (part: Partial<AskedForm>) => void;
  errorAt: (inner: string) => string | null;
};

function AskedQuestion({ onRemove, ...part }: QuestionPart & { onRemove: (() => void) | null }) {
  const { question, onChange } = part;
  const { response } = question;
  return (
    <fieldset>
      <legend className="sr-only">{text.responses[response]}</legend>
      <TickField label={text.responses[response]} ticked={question.asked} onTick={(asked) => onChange({ asked })} />
      {question.asked && (
        <div className="fields">
          {response === "value" && <AskedValueFields {...part} />}
          <ComparedFields {...part} />
          {(response === "rusted area" || response === "grade") && <DayField {...part} />}
          {response === "grade" && (
            <ChoiceField
              label={text.scale}
              value={question.scale}
              choices={(["iso10289", "d610", "iso4628"] as const).map((value) => ({
                value,
                label: text.scales[value],
              }))}
              onChoose={(scale) => onChange({ scale })}
            />
          )}
          {response === "strokes to breakthrough" && (
            <ChoiceField
              label={text.place}
              value={question.place}
              choices={(["face", "edge"] as const).map((value) => ({ value, label: text.places[value] }))}
              onChoose={(place) => onChange({ place })}
            />
          )}
          {onRemove && (
            <button type="button" className="quiet" onClick={onRemove}>
              {text.remove}
            </button>
          )}
        </div>
      )}
    </fieldset>
  );
}

function ComparedFields({ question, ordered, onChange, errorAt }: QuestionPart) {
  const { response, family, margin } = question;
  // Only its kind is asked here: what is typed so far may be half a number.
  const declared = declaredOf(question, { numberAt: () => 0, refuse: () => {} });
  const unit = marginUnit(declared);
  const offer =
    response === "value" ? (marginKind(declared) === "classes" ? "1" : null) : String(offeredMargins[response]);
  return (
    <>
      <ChoiceField
        label={text.family}
        value={family}
        choices={[
          { value: "control", label: text.families.control },
          { value: "pairs", label: text.families.pairs },
          ...(ordered.length > 2 || isOrdered(question)
            ? [{ value: "order" as const, label: text.families.order }]
            : []),
        ]}
        onChoose={(chosen) => onChange({ family: chosen })}
        hint={isOrdered(question) ? text.ordered(ordered) : undefined}
        error={errorAt(isOrdered(question) ? "/order" : "/family")}
      />
      <div>
        <NumberField
          label={text.margin}
          unit={unit}
          hint={margin.trim() === "" ? text.marginNone : undefined}
          value={margin}
          onType={(typed) => onChange({ margin: typed })}
          error={errorAt("/margin")}
        />
        {margin.trim() === "" && offer !== null && (
          <button type="button" className="quiet" onClick={() => onChange({ margin: offer })}>
            {text.takeOffer(offer === "1" && unit === "classes" ? "1 class" : `${offer} ${unit}`)}
          </button>
        )}
      </div>
    </>
  );
}

function DayField({ question, onChange, errorAt }: QuestionPart) {
  return (
    <NumberField
      label={text.atDay}
      hint={text.atDayHint}
      value={question.atDay}
      onType={(atDay) => onChange({ atDay })}
      error={errorAt("/atDay")}
    />
  );
}
