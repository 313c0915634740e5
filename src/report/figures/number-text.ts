/** How figures write numbers: no more digits than were measured, no exponent, a true minus sign. */

const twoDigits = new Intl.NumberFormat("en", { maximumSignificantDigits: 2, useGrouping: false });
const threeDigits = new Intl.NumberFormat("en", { maximumSignificantDigits: 3, useGrouping: false });
const oneDecimal = new Intl.NumberFormat("en", { maximumFractionDigits: 1, useGrouping: false });

/** A rusted area, without its sign. Only a whole face says 100, and only no rust at all says 0. */
export function percentText(percent: number): string {
  if (percent > 0 && percent < 0.001) return "< 0.001";
  if (percent >= 99.95 && percent < 100) return "> 99.9";
  return percent >= 99 ? oneDecimal.format(percent) : twoDigits.format(percent);
}

/** A measured or computed value to three digits, whole numbers as they are. */
export function valueText(value: number): string {
  const text = Number.isInteger(value) ? String(value) : threeDigits.format(value);
  return text.replace("-", "−");
}

/** A ratio or difference: two digits are what such intervals bear. */
export function effectText(value: number): string {
  const text = Math.abs(value) >= 10 ? String(Math.round(value)) : twoDigits.format(value);
  return text.replace("-", "−");
}

/** A probability; never 0. */
export function pText(p: number): string {
  if (p < 0.0001) return "below 0.0001";
  return twoDigits.format(p);
}
