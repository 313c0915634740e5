/** Rows about one coupon become what is known of it: treatment, block, batch, circumstances, deviation. */
import { type CouponCells, plainName } from "./plain-table.ts";
import type { QuestionCoupon } from "./question.ts";

export type CouponFacts = Omit<QuestionCoupon, "datum">;

/** In the order in which coupons appear; a treatment keeps the spelling in which it appears first. */
export function couponFacts(rows: readonly CouponCells[]): CouponFacts[] {
  const spelling = new Map<string, string>();
  for (const row of rows)
    if (!spelling.has(plainName(row.treatment))) spelling.set(plainName(row.treatment), row.treatment.trim());
  const columns = recordedCircumstances(rows);
  return [...groupedByCoupon(rows)].map(([coupon, own]) => ({
    coupon,
    treatment: spelling.get(plainName(own[0]!.treatment))!,
    block: firstSaid(own.map((row) => row.block)),
    applications: { batch: firstSaid(own.map((row) => row.batch)) },
    circumstances: Object.fromEntries(columns.map(({ name, writtenIn }) => [name, joined(own.map(writtenIn))])),
    deviation: joinedTexts(own.map((row) => row.deviation)),
  }));
}

/** Rows under their coupon, coupons in the order in which they appear. */
export function groupedByCoupon<Row extends { coupon: string }>(rows: readonly Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const own = groups.get(row.coupon);
    if (own) own.push(row);
    else groups.set(row.coupon, [row]);
  }
  return groups;
}

type Written = { name: string; writtenIn: (row: CouponCells) => string | number | null };

/**
 * What is audited: of the usual columns those in which anything was written, and each that the user named.
 * `batch` is not among them: it is judged as a step (which coupons went through it together).
 */
function recordedCircumstances(rows: readonly CouponCells[]): Written[] {
  const usual: Written[] = [
    { name: "site", writtenIn: (row) => row.site },
    { name: "row", writtenIn: (row) => row.rackRow },
    { name: "column", writtenIn: (row) => row.rackColumn },
    { name: "edge", writtenIn: (row) => row.edge },
    { name: "inspector", writtenIn: (row) => row.inspector },
  ];
  const named = Object.keys(rows[0]?.circumstances ?? {}).map((name) => ({
    name,
    writtenIn: (row: CouponCells) => row.circumstances[name] ?? null,
  }));
  return [...usual.filter(({ writtenIn }) => rows.some((row) => writtenIn(row) !== null)), ...named];
}

/** One value for a coupon: the mean of numbers, or every text that was written ("Ann and Bo" looked at it). */
function joined(values: readonly (string | number | null)[]): string | number | null {
  const said = values.filter((value) => value !== null);
  const numbers = said.filter((value) => typeof value === "number");
  if (numbers.length === said.length && numbers.length > 0)
    return numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
  return joinedTexts(said.map(String), " and ");
}

function joinedTexts(texts: readonly (string | null)[], between = "; "): string | null {
  const said = [...new Set(texts.filter((text) => text !== null))].sort();
  return said.length > 0 ? said.join(between) : null;
}

const firstSaid = (texts: readonly (string | null)[]): string | null => texts.find((text) => text !== null) ?? null;
