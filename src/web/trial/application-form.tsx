/** Writes down one carrying-out of a step, or one for each coupon where each was treated by itself. */
import type { Application, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { type Draft, useDraft } from "../keep/draft.ts";
import { instantFromTyped, nowTyped, typedFromInstant } from "../parts/clock.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { ChoiceField, LongTextField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { siFromTyped, typedQuantity } from "../parts/quantity.ts";
import { errorAt } from "../shop/field-errors.ts";
import { usePreferences } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { type Filled, ObserveForm } from "./observe-form.tsx";
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
  why: string;
};
type Field = "step" | "coupons" | "startedAt" | "endedAt" | "temp";

export function ApplicationFormPart({
  record,
  corrects = null,
  onWritten,
}: {
  record: TrialRecord;
  corrects?: Observed<Application> | null;
  onWritten?: (() => void) | undefined;
}) {
  const preferences = usePreferences();
  const draftKey = `application ${record.id} ${corrects?.id ?? "new"}`;
  const draft = useDraft<ApplicationForm>(draftKey, () => ({
    step: corrects?.body.step ?? "",
    coupons: corrects?.body.coupons ?? [],
    each: corrects ? "together" : "",
    startedAt: corrects ? typedFromInstant(corrects.body.startedAt) : nowTyped(),
    endedAt: corrects?.body.endedAt ? typedFromInstant(corrects.body.endedAt) : "",
    temp: corrects && corrects.body.tempC !== null ? typedQuantity("temp", corrects.body.tempC, preferences) : "",
    note: corrects?.body.note ?? "",
    why: "",
  }));
  const { form } = draft;
  const alone = form.each === "" ? doneAlone(record, form.step, form.coupons) : form.each === "alone";

  const fill = (): Filled<Field> => {
    const startedAt = instantFromTyped(form.startedAt);
    const endedAt = form.endedAt === "" ? null : instantFromTyped(form.endedAt);
    const tempC = form.temp.trim() === "" ? null : siFromTyped("temp", form.temp, preferences);
    const missing: Partial<Record<Field, string>> = {};
    if (form.step === "") missing.step = text.needsStep;
    if (form.coupons.length === 0) missing.coupons = text.needsCoupons;
    if (startedAt === null) missing.startedAt = text.needsTime;
    if (form.endedAt !== "" && endedAt === null) missing.endedAt = text.needsTime;
    if (form.temp.trim() !== "" && tempC === null) missing.temp = trialText.notANumber(form.temp);
    if (startedAt === null || Object.keys(missing).length > 0) return { missing };
    const body = (coupons: string[]): Application => ({
      kind: "application",
      step: form.step,
      coupons,
      startedAt,
      endedAt,
      tempC,
      note: form.note.trim(),
    });
    return { bodies: alone && !corrects ? form.coupons.map((coupon) => body([coupon])) : [body(form.coupons)] };
  };

  return (
    <ObserveForm
      trialId={record.id}
      draftKey={draftKey}
      draft={draft}
      corrects={corrects}
      fill={fill}
      submit={text.keepStep}
      shown={["/body/step", "/body/coupons", "/body/startedAt", "/body/endedAt", "/body/tempC", "/body/note"]}
      onWritten={onWritten}
      fields={(missing, error) => (
        <>
          <StepAndCoupons record={record} draft={draft} missing={missing} error={error} />
          {form.coupons.length > 0 && form.step !== "" && !corrects && (
            <>
              <TickField
                label={text.alone}
                ticked={alone}
                onTick={(ticked) => draft.change({ each: ticked ? "alone" : "together" })}
              />
              <p className="hint">
                {alone ? text.aloneMeans(form.coupons.length) : text.togetherMeans(form.coupons.length)}
              </p>
            </>
          )}
          <div className="fields">
            <TextField
              label={text.startedAt}
              type="datetime-local"
              value={form.startedAt}
              onType={(startedAt) => draft.change({ startedAt })}
              error={missing.startedAt ?? errorAt(error, "/body/startedAt")}
            />
            <TextField
              label={text.endedAt}
              type="datetime-local"
              hint={text.endedHint}
              value={form.endedAt}
              onType={(endedAt) => draft.change({ endedAt })}
              error={missing.endedAt ?? errorAt(error, "/body/endedAt")}
            />
            <NumberField
              label={text.temp}
              unit={preferences.temp}
              hint={text.tempHint}
              value={form.temp}
              onType={(temp) => draft.change({ temp })}
              error={missing.temp ?? errorAt(error, "/body/tempC")}
            />
          </div>
          <LongTextField
            label={text.note}
            rows={2}
            value={form.note}
            onType={(note) => draft.change({ note })}
            error={errorAt(error, "/body/note")}
          />
        </>
      )}
    />
  );
}

function StepAndCoupons({
  record,
  draft: { form, change },
  missing,
  error,
}: {
  record: TrialRecord;
  draft: Draft<ApplicationForm>;
  missing: Partial<Record<Field, string>>;
  error: unknown;
}) {
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
  const stepError = missing.step ?? errorAt(error, "/body/step");
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
      {(form.step !== "" || missing.coupons) && (
        <CouponPicker
          label={text.coupons}
          places={record.plan.places}
          chosen={form.coupons}
          onChoose={(coupons) => change({ coupons })}
          barred={barred}
          groups={groups}
          error={missing.coupons ?? errorAt(error, "/body/coupons")}
        />
      )}
    </>
  );
}
