/** From a plain table, and what the user says beside it, to the question that is answered. */
import { InputError, requirePercent, requirePositive, requireWhole } from "../input-error.ts";
import { type Assumptions, assumptionNotes } from "./assumptions.ts";
import { comparisonGroups } from "./comparison-groups.ts";
import { type CouponFacts, couponFacts } from "./coupon-facts.ts";
import {
  firstRustResponse,
  gradeResponse,
  type MeasuredResponse,
  rustedAreaResponse,
  usualRustThresholdPercent,
} from "./look-responses.ts";
import { tableLookSeries } from "./look-series.ts";
import type { LooksTable, PlainTable } from "./plain-table.ts";
import type { Question } from "./question.ts";
import type { RustScale } from "./scale-ends.ts";
import { timesResponse, valuesResponse } from "./value-responses.ts";
import { witnessNotes } from "./witness-notes.ts";

/** What stands beside the table: options of the command, answers on the page. null: not said. */
export type TableAsk = {
  /** Of a table of looks; null: time. */
  response: "time" | "area" | "grade" | null;
  /** Of grades from percents; null: the ISO 10289 table. */
  scale: RustScale | null;
  thresholdPercent: number | null;
  atDay: number | null;
  control: string | null;
  witness: string | null;
  family: "control" | "pairs" | null;
  margin: number | null;
  /** Continuous values: as ratios, chosen beforehand. */
  ratio: boolean;
  treatedSeparately: boolean;
  notRandomised: boolean;
  notBlind: boolean;
  exploratory: boolean;
  seed: number;
};

export const plainAsk: TableAsk = {
  response: null,
  scale: null,
  thresholdPercent: null,
  atDay: null,
  control: null,
  witness: null,
  family: null,
  margin: null,
  ratio: false,
  treatedSeparately: false,
  notRandomised: false,
  notBlind: false,
  exploratory: false,
  seed: 1,
};

/** Days or strokes, percent, classes, or the values' own unit. Refuses what the table cannot answer, naming the option. */
export function tableQuestion(table: PlainTable, ask: TableAsk): Question {
  requireWhole("seed", ask.seed);
  if (ask.thresholdPercent !== null) requirePercent("threshold", ask.thresholdPercent);
  const facts = couponFacts(table.rows);
  const appearing = [...new Set(facts.map((one) => one.treatment))];
  const groups = comparisonGroups(appearing, ask);
  const compared = facts.filter((one) => groups.treatments.includes(one.treatment));
  requireBlocks(compared);
  const measured = responseOf(table, ask, new Set(compared.map((one) => one.coupon)));
  requireMargin(ask.margin, measured);
  const assumptions = assumptionsOf(ask, compared);
  const { data, notes, ...response } = measured;
  const coupons = facts.flatMap((one) => {
    const datum = data.get(one.coupon);
    return datum ? [{ ...withKnownSteps(one, assumptions), datum }] : [];
  });
  return {
    ...response,
    ...groups,
    ...assumptions,
    margin: ask.margin,
    coupons,
    routes: null,
    seed: ask.seed,
    notes: [
      ...table.notes,
      ...notes,
      ...witnessNotes({ witnesses: groups.witnesses, coupons, unit: measured.unit }),
      ...assumptionNotes(assumptions, "table"),
    ],
  };
}

function responseOf(table: PlainTable, ask: TableAsk, compared: ReadonlySet<string>): MeasuredResponse {
  if (table.kind === "looks") return looksAnswer(table, ask, compared);
  if (ask.response !== null && table.kind === "times")
    throw new InputError("response", ask.response, "nothing: this table has times already");
  if (ask.atDay !== null) throw new InputError("at", ask.atDay, "nothing: only a table of looks has days to choose");
  if (table.kind === "times") {
    if (ask.thresholdPercent !== null)
      throw new InputError("threshold", ask.thresholdPercent, "nothing: this table has times already");
    return timesResponse(table);
  }
  return valuesResponse(table, {
    ratio: ask.ratio,
    detectionLimitPercent: ask.thresholdPercent ?? usualRustThresholdPercent,
  });
}

function looksAnswer(table: LooksTable, ask: TableAsk, compared: ReadonlySet<string>): MeasuredResponse {
  const response = ask.response ?? "time";
  if (table.readings === "rating" && ask.thresholdPercent !== null)
    throw new InputError(
      "threshold",
      ask.thresholdPercent,
      "nothing: with ratings, rust is any class worse than the best",
    );
  if (response === "time" && ask.atDay !== null)
    throw new InputError("at", ask.atDay, 'nothing, or "area" or "grade" as response: "time" looks at every day');
  const series = tableLookSeries(table);
  const fixed = { atDay: ask.atDay, compared };
  const scale = table.scale ?? ask.scale ?? "iso10289";
  if (response === "grade")
    return gradeResponse(series, { by: table.readings === "rating" ? "rating" : "percent", scale }, fixed);
  const readings =
    table.readings === "rating"
      ? ({ by: "rating", scale } as const)
      : ({ by: "percent", thresholdPercent: ask.thresholdPercent ?? usualRustThresholdPercent } as const);
  return response === "time" ? firstRustResponse(series, readings) : rustedAreaResponse(series, readings, fixed);
}

/** Blocks are drawn in: either every compared coupon stands in one, or there are none. */
function requireBlocks(compared: readonly CouponFacts[]): void {
  const without = compared.filter((one) => one.block === null);
  if (without.length > 0 && without.length < compared.length)
    throw new InputError(
      "block",
      `empty for coupon ${without.map((one) => one.coupon).join(", ")}`,
      "a block for every coupon that is compared, or for none",
    );
}

/** A batch column that is empty for every compared coupon says nothing about how they were treated. */
function assumptionsOf(ask: TableAsk, compared: readonly CouponFacts[]): Assumptions {
  const recorded = compared.some((one) => one.applications.batch !== null);
  return {
    randomised: !ask.notRandomised,
    blind: !ask.notBlind,
    declared: !ask.exploratory,
    treatedSeparately: recorded ? "recorded" : ask.treatedSeparately ? "confirmed" : "assumed",
  };
}

function withKnownSteps(facts: CouponFacts, { treatedSeparately }: Assumptions): CouponFacts {
  return treatedSeparately === "recorded" ? facts : { ...facts, applications: {} };
}

function requireMargin(margin: number | null, { kind, ratio }: MeasuredResponse): void {
  if (margin === null) return;
  requirePositive("margin", margin);
  if ((kind === "time" || kind === "area" || ratio) && margin <= 1)
    throw new InputError("margin", margin, "a factor above 1");
  if (kind === "binary" && margin >= 1)
    throw new InputError("margin", margin, "a difference of shares, between 0 and 1");
}
