/** Puts coupons out at a site on a date. */
import type { Observed, PutOut, TrialRecord } from "../../core/trial/trial-record.ts";
import { useDraft } from "../keep/draft.ts";
import { todayDate } from "../parts/clock.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { TextField } from "../parts/field.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { trialText } from "../text/trial.ts";
import { type Filled, ObserveForm } from "./observe-form.tsx";
import { isGone, outAt, sitesOf } from "./where-it-stands.ts";

const text = trialText.outdoors;

type PutOutForm = { site: string; date: string; coupons: string[]; why: string };
type Field = "site" | "date" | "coupons";

export function PutOutFormPart({
  record,
  corrects = null,
  onWritten,
}: {
  record: TrialRecord;
  corrects?: Observed<PutOut> | null;
  onWritten?: (() => void) | undefined;
}) {
  const elsewhere = (coupon: string) => {
    const out = outAt(record, coupon);
    return (out !== null && out.id !== corrects?.id) || isGone(record, coupon);
  };
  const { places } = record.plan;
  const draftKey = `put out ${record.id} ${corrects?.id ?? "new"}`;
  const draft = useDraft<PutOutForm>(draftKey, () => ({
    site: corrects?.body.site ?? sitesOf(record)[0] ?? "",
    date: corrects?.body.date ?? todayDate(),
    coupons:
      corrects?.body.coupons ??
      places.filter((place) => !place.spare && !elsewhere(place.coupon)).map((place) => place.coupon),
    why: "",
  }));
  const { form, change } = draft;
  // A kept form may still name coupons that went out since.
  const chosen = form.coupons.filter((coupon) => !elsewhere(coupon));
  const fill = (): Filled<Field> => {
    const missing: Partial<Record<Field, string>> = {};
    if (form.site.trim() === "") missing.site = text.needsSite;
    if (form.date === "") missing.date = text.needsDate;
    if (chosen.length === 0) missing.coupons = trialText.done.needsCoupons;
    if (Object.keys(missing).length > 0) return { missing };
    return { bodies: [{ kind: "put out", site: form.site.trim(), date: form.date, coupons: chosen }] };
  };
  return (
    <ObserveForm
      trialId={record.id}
      draftKey={draftKey}
      draft={draft}
      corrects={corrects}
      fill={fill}
      submit={text.keepPutOut}
      shown={["/body/site", "/body/date", "/body/coupons"]}
      onWritten={onWritten}
      fields={(missing, error) => (
        <>
          <div className="fields">
            <TextField
              label={text.site}
              hint={text.siteHint}
              value={form.site}
              onType={(site) => change({ site })}
              error={missing.site ?? errorAt(error, "/body/site")}
            />
            <TextField
              label={text.date}
              type="date"
              value={form.date}
              onType={(date) => change({ date })}
              error={missing.date ?? errorAt(error, "/body/date")}
            />
          </div>
          <CouponPicker
            label={text.coupons}
            places={places}
            chosen={chosen}
            onChoose={(coupons) => change({ coupons })}
            barred={new Set(places.map((place) => place.coupon).filter(elsewhere))}
            error={missing.coupons ?? errorAt(error, "/body/coupons")}
          />
        </>
      )}
    />
  );
}
