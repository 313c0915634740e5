/** Choosing coupons as they hang: large plates to tap, in their rows, and whole groups at once. */
import type { CouponPlace } from "../../core/trial/coupon-place.ts";
import { pickerText } from "../text/parts.ts";

export type PickerGroup = { label: string; coupons: readonly string[] };

export function CouponPicker({
  label,
  places,
  chosen,
  onChoose,
  barred = new Set<string>(),
  groups = [],
  error = null,
}: {
  label: string;
  places: readonly CouponPlace[];
  chosen: readonly string[];
  onChoose: (coupons: string[]) => void;
  /** Coupons that cannot be chosen here (not in this route, no longer there). */
  barred?: ReadonlySet<string>;
  groups?: readonly PickerGroup[];
  error?: string | null;
}) {
  const free = places.map((place) => place.coupon).filter((coupon) => !barred.has(coupon));
  const toggle = (coupon: string, on: boolean) =>
    onChoose(free.filter((one) => (one === coupon ? on : chosen.includes(one))));
  return (
    <fieldset>
      <legend>
        {label} <small>{pickerText.chosen(chosen.length, free.length)}</small>
      </legend>
      <div className="quick">
        <button type="button" className="second" onClick={() => onChoose(free)}>
          {pickerText.all}
        </button>
        <button type="button" className="second" onClick={() => onChoose([])}>
          {pickerText.none}
        </button>
        {groups.map((group) => (
          <button
            key={group.label}
            type="button"
            className="second"
            onClick={() => onChoose(free.filter((coupon) => group.coupons.includes(coupon)))}
          >
            {group.label}
          </button>
        ))}
      </div>
      <div className="picker">
        {rackRows(places).map((row) => (
          <div className="picker-row" key={row[0]?.coupon}>
            {row.map(({ coupon }) => (
              <label key={coupon}>
                <input
                  type="checkbox"
                  aria-label={pickerText.coupon(coupon)}
                  disabled={barred.has(coupon)}
                  checked={chosen.includes(coupon)}
                  onChange={(event) => toggle(coupon, event.target.checked)}
                />
                <span>{coupon}</span>
              </label>
            ))}
          </div>
        ))}
      </div>
      {error && <small className="wrong">{error}</small>}
    </fieldset>
  );
}

/** Coupons as they hang; without a rack in rows of six, as they were numbered. */
export function rackRows(places: readonly CouponPlace[]): CouponPlace[][] {
  const rowOf = (place: CouponPlace, at: number) => place.rack?.row ?? 1_000_000 + Math.floor(at / 6);
  const rows = new Map<number, CouponPlace[]>();
  for (const [at, place] of places.entries()) {
    const row = rowOf(place, at);
    rows.set(row, [...(rows.get(row) ?? []), place]);
  }
  return [...rows]
    .sort(([a], [b]) => a - b)
    .map(([, row]) => row.toSorted((a, b) => (a.rack?.column ?? 0) - (b.rack?.column ?? 0)));
}
