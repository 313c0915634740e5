/** What bare coupons say of the place: how harsh it was, or that nothing happened there. They are never compared. */
import type { Question, QuestionCoupon, TimeDatum } from "./question.ts";

/** A sentence for each witness, in the unit of the question. */
export function witnessNotes({ witnesses, coupons, unit }: Pick<Question, "witnesses" | "coupons" | "unit">): string[] {
  return witnesses.map((name) => {
    const own = coupons.filter((one) => one.treatment === name);
    if (own.length === 0) return `Witness ${name}: not read.`;
    const times = own.flatMap(({ datum }) => ("left" in datum ? [datum] : []));
    return `Witness ${name}, ${own.length} ${own.length === 1 ? "coupon" : "coupons"}: ${times.length > 0 ? timeWords(times, unit) : valueWords(own, unit)}.`;
  });
}

function timeWords(times: readonly TimeDatum[], unit: string): string {
  const rusted = times.flatMap(({ right }) => (right === null ? [] : [right]));
  if (rusted.length === 0)
    return `none after ${Math.max(...times.map((one) => one.left))} ${unit}, so little happened here`;
  const at = (time: number) => (unit === "days" ? `day ${time}` : `${time} ${unit}`);
  const first = `the first by ${at(Math.min(...rusted))}`;
  return rusted.length === times.length
    ? `${first}, all by ${at(Math.max(...rusted))}`
    : `${rusted.length} of them, ${first}`;
}

function valueWords(coupons: readonly QuestionCoupon[], unit: string): string {
  const values = coupons.flatMap(({ datum }) => ("value" in datum ? [datum.value] : [])).sort((a, b) => a - b);
  const ends = new Set([values[0], values.at(-1)].flatMap((value) => (value === undefined ? [] : [numberText(value)])));
  return `${[...ends].join(" to ")}${unit === "" ? "" : ` ${unit}`}`;
}

/** Three digits are more than a witness bears. */
const numberText = (value: number): string => String(Number(value.toPrecision(3)));
