/** Writes down what went otherwise than planned; it stays with the coupons it touched. */
import type { Deviation } from "../../core/trial/trial-record.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { ChoiceField, LongTextField, TickField } from "../parts/field.tsx";
import { trialText } from "../text/trial.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { stepsOf } from "./where-it-stands.ts";

const text = trialText.done;

export function DeviationFormPart({ record, corrects = null, onWritten }: ObserveFormProps<Deviation>) {
  return (
    <ObserveForm
      trialId={record.id}
      about="deviation"
      corrects={corrects}
      start={() => ({
        what: corrects?.body.what ?? "",
        step: corrects?.body.step ?? "",
        coupons: corrects?.body.coupons ?? [],
        paperworkOnly: corrects?.body.paperworkOnly ?? false,
      })}
      fill={(form) => {
        const { coupons, paperworkOnly } = form;
        const what = form.what.trim();
        if (what === "" || coupons.length === 0)
          return {
            missing: { what: what === "" && text.needsWhat, coupons: coupons.length === 0 && text.needsCoupons },
          };
        const step = form.step === "" ? null : form.step;
        return { bodies: [{ kind: "deviation", what, step, coupons, paperworkOnly }] };
      }}
      shown={["what", "step", "coupons"]}
      fields={({ form, change, errorAt }) => (
        <>
          <LongTextField
            label={text.what}
            rows={2}
            value={form.what}
            onType={(what) => change({ what })}
            error={errorAt("what")}
          />
          <ChoiceField
            label={text.ofStep}
            value={form.step}
            choices={[
              { value: "", label: text.noStep },
              ...stepsOf(record).map((step) => ({ value: step, label: step })),
            ]}
            onChoose={(step) => change({ step })}
            error={errorAt("step")}
          />
          <CouponPicker
            label={text.affected}
            places={record.plan.places}
            chosen={form.coupons}
            onChoose={(coupons) => change({ coupons })}
            error={errorAt("coupons")}
          />
          <TickField
            label={text.paperworkOnly}
            ticked={form.paperworkOnly}
            onTick={(paperworkOnly) => change({ paperworkOnly })}
          />
        </>
      )}
      submit={text.keepDeviation}
      onWritten={onWritten}
    />
  );
}
