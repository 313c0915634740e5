/** Writes down one carrying-out of a step, or one for each coupon where each was treated by itself. */
import type { Application, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import type { Preferences } from "../../core/units.ts";
import { instantFromTyped, nowTyped, typedFromInstant } from "../parts/clock.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { ChoiceField, LongTextField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { siFromTyped, typedQuantity } from "../parts/quantity.ts";
import { WhySaid } from "../parts/why.tsx";
import { usePreferences } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import { type Filled, type FormFields, ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { couponsByTreatment, couponsWithStep, doneAlone, isGone, stepsOf, throughStep } from "./where-it-stands.ts";

const text = trialText.done;

type ApplicationForm = {
  step: string;
  coupons: string[];
  /** "" until the user decides otherwise than the plan. */
  each: "" | "alone" | "together";
  startedAt: string;
  endedAt: string;
  temp: string;
  note: string;
};
const shown = ["step", "coupons", "startedAt", "endedAt", "tempC", "note"] as const;
type Fields = FormFields<ApplicationForm, (typeof shown)[number]>;

export function ApplicationFormPart({ record, corrects = null, onWritten }: ObserveFormProps<Application>) {
  const preferences = usePreferences();
  const isAlone = ({ each, step, coupons }: ApplicationForm) =>
    each === "" ? doneAlone(record, step, coupons) : each === "alone";
  return (
    <ObserveForm
      trialId={record.id}
      about="application"
      corrects={corrects}
      start={() => startingForm(corrects, preferences)}
      fill={(form) => applicationsOf(form, { oneEach: isAlone(form) && !corrects, preferences })}
      shown={shown}
      fields={(drawn) => (
        <>
          <StepAndCoupons record={record} {...drawn} />
          {drawn.form.coupons.length > 0 && drawn.form.step !== "" && !corrects && (
            <AloneOrTogether {...drawn} alone={isAlone(drawn.form)} />
          )}
          <TimesAndNote {...drawn} preferences={preferences} />
        </>
      )}
      submit={text.keepStep}
      onWritten={onWritten}
    />
  );
}

function startingForm(corrects: Observed<Application> | null, preferences: Preferences): ApplicationForm {
  if (corrects === null)
    return { step: "", coupons: [], each: "", startedAt: nowTyped(), endedAt: "", temp: "", note: "" };
  const { step, coupons, startedAt, endedAt, tempC, note } = corrects.body;
  return {
    step,
    coupons,
    each: "together",
    // Empty where a table gave no time: whoever corrects it says when.
    startedAt: startedAt ? typedFromInstant(startedAt) : "",
    endedAt: endedAt ? typedFromInstant(endedAt) : "",
    temp: tempC === null ? "" : typedQuantity("temp", tempC, preferences),
    note,
  };
}

function applicationsOf(
  form: ApplicationForm,
  { oneEach, preferences }: { oneEach: boolean; preferences: Preferences },
): Filled<(typeof shown)[number]> {
  const startedAt = instantFromTyped(form.startedAt);
  const endedAt = form.endedAt === "" ? null : instantFromTyped(form.endedAt);
  const tempC = form.temp.trim() === "" ? null : siFromTyped("temp", form.temp, preferences);
  const missing = {
    step: form.step === "" && text.needsStep,
    coupons: form.coupons.length === 0 && text.needsCoupons,
    startedAt: startedAt === null && text.needsTime,
    endedAt: form.endedAt !== "" && endedAt === null && text.needsTime,
    tempC: form.temp.trim() !== "" && tempC === null && trialText.notANumber(form.temp),
  };
  if (startedAt === null || Object.values(missing).some((lacking) => lacking !== false)) return { missing };
  const body = (coupons: string[]): Application => ({
    kind: "application",
    step: form.step,
    coupons,
    startedAt,
    endedAt,
    tempC,
    note: form.note.trim(),
  });
  return { bodies: oneEach ? form.coupons.map((coupon) => body([coupon])) : [body(form.coupons)] };
}

function StepAndCoupons({ record, form, change, errorAt }: { record: TrialRecord } & Fields) {
  const steps = stepsOf(record);
  const having = new Set(couponsWithStep(record, form.step));
  const through = throughStep(record, form.step);
  const barred = new Set(
    record.plan.places.map((one) => one.coupon).filter((coupon) => !having.has(coupon) || isGone(record, coupon)),
  );
  const groups = [
    { label: text.left, coupons: [...having].filter((coupon) => !through.has(coupon)) },
    ...couponsByTreatment(record)
      .filter((one) => one.places.some((place) => having.has(place.coupon)))
      .map((one) => ({ label: one.treatment, coupons: one.places.map((place) => place.coupon) })),
  ];
  const stepError = errorAt("step");
  return (
    <>
      {steps.length > 0 ? (
        <ChoiceField
          label={text.step}
          value={form.step}
          choices={[{ value: "", label: text.chooseStep }, ...steps.map((step) => ({ value: step, label: step }))]}
          onChoose={(step) => change({ step, coupons: [], each: "" })}
          error={stepError}
        />
      ) : (
        <TextField label={text.step} value={form.step} onType={(step) => change({ step })} error={stepError} />
      )}
      {(form.step !== "" || errorAt("coupons")) && (
        <CouponPicker
          label={text.coupons}
          places={record.plan.places}
          chosen={form.coupons}
          onChoose={(coupons) => change({ coupons })}
          barred={barred}
          groups={groups}
          error={errorAt("coupons")}
        />
      )}
    </>
  );
}

function AloneOrTogether({ form, change, alone }: Fields & { alone: boolean }) {
  return (
    <>
      <TickField
        label={text.alone}
        ticked={alone}
        onTick={(ticked) => change({ each: ticked ? "alone" : "together" })}
      />
      <p className="hint">{alone ? text.aloneMeans(form.coupons.length) : text.togetherMeans(form.coupons.length)}</p>
      <WhySaid {...whyPlanText.units} />
    </>
  );
}

function TimesAndNote({ form, change, errorAt, preferences }: Fields & { preferences: Preferences }) {
  return (
    <>
      <div className="fields">
        <TextField
          label={text.startedAt}
          type="datetime-local"
          value={form.startedAt}
          onType={(startedAt) => change({ startedAt })}
          error={errorAt("startedAt")}
        />
        <TextField
          label={text.endedAt}
          type="datetime-local"
          hint={text.endedHint}
          value={form.endedAt}
          onType={(endedAt) => change({ endedAt })}
          error={errorAt("endedAt")}
        />
        <NumberField
          label={text.temp}
          unit={preferences.temp}
          hint={text.tempHint}
          value={form.temp}
          onType={(temp) => change({ temp })}
          error={errorAt("tempC")}
        />
      </div>
      <LongTextField
        label={text.note}
        rows={2}
        value={form.note}
        onType={(note) => change({ note })}
        error={errorAt("note")}
      />
    </>
  );
}
