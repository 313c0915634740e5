/** Writes down what went otherwise than planned; it stays with the coupons it touched. */
import type { Deviation, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { useDraft } from "../keep/draft.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { ChoiceField, LongTextField, TickField } from "../parts/field.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { trialText } from "../text/trial.ts";
import { type Filled, ObserveForm } from "./observe-form.tsx";
import { stepsOf } from "./where-it-stands.ts";

const text = trialText.done;

type DeviationForm = { what: string; step: string; coupons: string[]; paperworkOnly: boolean; why: string };
type Field = "what" | "coupons";

export function DeviationFormPart({
  record,
  corrects = null,
  onWritten,
}: {
  record: TrialRecord;
  corrects?: Observed<Deviation> | null;
  onWritten?: (() => void) | undefined;
}) {
  const draftKey = `deviation ${record.id} ${corrects?.id ?? "new"}`;
  const draft = useDraft<DeviationForm>(draftKey, () => ({
    what: corrects?.body.what ?? "",
    step: corrects?.body.step ?? "",
    coupons: corrects?.body.coupons ?? [],
    paperworkOnly: corrects?.body.paperworkOnly ?? false,
    why: "",
  }));
  const { form, change } = draft;
  const fill = (): Filled<Field> => {
    const missing: Partial<Record<Field, string>> = {};
    if (form.what.trim() === "") missing.what = text.needsWhat;
    if (form.coupons.length === 0) missing.coupons = text.needsCoupons;
    if (Object.keys(missing).length > 0) return { missing };
    const step = form.step === "" ? null : form.step;
    const { coupons, paperworkOnly } = form;
    return { bodies: [{ kind: "deviation", what: form.what.trim(), step, coupons, paperworkOnly }] };
  };
  return (
    <ObserveForm
      trialId={record.id}
      draftKey={draftKey}
      draft={draft}
      corrects={corrects}
      fill={fill}
      submit={text.keepDeviation}
      shown={["/body/what", "/body/step", "/body/coupons"]}
      onWritten={onWritten}
      fields={(missing, error) => (
        <>
          <LongTextField
            label={text.what}
            rows={2}
            value={form.what}
            onType={(what) => change({ what })}
            error={missing.what ?? errorAt(error, "/body/what")}
          />
          <ChoiceField
            label={text.ofStep}
            value={form.step}
            choices={[
              { value: "", label: text.noStep },
              ...stepsOf(record).map((step) => ({ value: step, label: step })),
            ]}
            onChoose={(step) => change({ step })}
            error={errorAt(error, "/body/step")}
          />
          <CouponPicker
            label={text.affected}
            places={record.plan.places}
            chosen={form.coupons}
            onChoose={(coupons) => change({ coupons })}
            error={missing.coupons ?? errorAt(error, "/body/coupons")}
          />
          <TickField
            label={text.paperworkOnly}
            ticked={form.paperworkOnly}
            onTick={(paperworkOnly) => change({ paperworkOnly })}
          />
        </>
      )}
    />
  );
}
