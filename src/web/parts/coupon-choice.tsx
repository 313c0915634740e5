/** One coupon of a trial, by its number. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { testsText as text } from "../text/tests.ts";
import { ChoiceField } from "./field.tsx";

export function CouponChoice(props: {
  record: TrialRecord;
  value: string;
  onChoose: (coupon: string) => void;
  error: string | null;
}) {
  const { record, value, onChoose, error } = props;
  const coupons = record.plan.places.map(({ coupon }) => ({ value: coupon, label: coupon }));
  return (
    <ChoiceField
      label={text.coupon}
      value={value}
      choices={[{ value: "", label: text.chooseCoupon }, ...coupons]}
      onChoose={onChoose}
      error={error}
    />
  );
}
