/** What every test at the bench asks beside its reading: which coupon, when, a note, and whether the treatment showed. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { CouponChoice } from "../parts/coupon-choice.tsx";
import { LongTextField, TextField, TickField } from "../parts/field.tsx";
import { testsText as text } from "../text/tests.ts";
import type { FormFields } from "./observe-form.tsx";

export type BenchTest = { coupon: string; date: string; note: string; knew: boolean };
type Drawn = { record: TrialRecord } & FormFields<BenchTest, "coupon" | "when" | "note">;

export function CouponAndDate({ record, form, change, errorAt }: Drawn) {
  return (
    <>
      <CouponChoice
        record={record}
        value={form.coupon}
        onChoose={(coupon) => change({ coupon })}
        error={errorAt("coupon")}
      />
      <TextField
        label={text.date}
        type="date"
        value={form.date}
        onType={(date) => change({ date })}
        error={errorAt("when")}
      />
    </>
  );
}

/** Once a trial is closed its treatments are shown, and nobody is asked. */
export function NoteAndKnew({ record, form, change, errorAt, hint }: Drawn & { hint?: string }) {
  return (
    <>
      <LongTextField
        label={text.note}
        {...(hint === undefined ? {} : { hint })}
        rows={2}
        value={form.note}
        onType={(note) => change({ note })}
        error={errorAt("note")}
      />
      {!record.unblinded && <TickField label={text.knew} ticked={form.knew} onTick={(knew) => change({ knew })} />}
    </>
  );
}
