/** Puts coupons out at a site on a date. */
import { siteNames } from "../../core/trial/hanging-at-sites.ts";
import type { PutOut } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { CouponPicker } from "../parts/coupon-picker.tsx";
import { TextField } from "../parts/field.tsx";
import { trialText } from "../text/trial.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { isGone, outAt } from "./where-it-stands.ts";

const text = trialText.outdoors;

export function PutOutFormPart({ record, corrects = null, onWritten }: ObserveFormProps<PutOut>) {
  const elsewhere = (coupon: string) => {
    const out = outAt(record, coupon);
    return (out !== null && out.id !== corrects?.id) || isGone(record, coupon);
  };
  // A kept form may still name coupons that went out since.
  const stillIn = (coupons: readonly string[]) => coupons.filter((coupon) => !elsewhere(coupon));
  const { places } = record.plan;
  return (
    <ObserveForm
      trialId={record.id}
      about="put out"
      corrects={corrects}
      start={() => ({
        site: corrects?.body.site ?? siteNames(record)[0] ?? "",
        date: corrects?.body.date ?? todayDate(),
        coupons:
          corrects?.body.coupons ??
          stillIn(places.filter((place) => !place.spare && place.keptFor === undefined).map((place) => place.coupon)),
      })}
      fill={(form) => {
        const { date } = form;
        const site = form.site.trim();
        const coupons = stillIn(form.coupons);
        if (site === "" || date === "" || coupons.length === 0)
          return {
            missing: {
              site: site === "" && text.needsSite,
              date: date === "" && text.needsDate,
              coupons: coupons.length === 0 && trialText.done.needsCoupons,
            },
          };
        return { bodies: [{ kind: "put out", site, date, coupons }] };
      }}
      shown={["site", "date", "coupons"]}
      fields={({ form, change, errorAt }) => (
        <>
          <div className="fields">
            <TextField
              label={text.site}
              hint={text.siteHint}
              value={form.site}
              onType={(site) => change({ site })}
              error={errorAt("site")}
            />
            <TextField
              label={text.date}
              type="date"
              value={form.date}
              onType={(date) => change({ date })}
              error={errorAt("date")}
            />
          </div>
          <CouponPicker
            label={text.coupons}
            places={places}
            chosen={stillIn(form.coupons)}
            onChoose={(coupons) => change({ coupons })}
            barred={new Set(places.map((place) => place.coupon).filter(elsewhere))}
            error={errorAt("coupons")}
          />
        </>
      )}
      submit={text.keepPutOut}
      onWritten={onWritten}
    />
  );
}
