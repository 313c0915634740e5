/** A notebook becomes a trial: the plan that its table shows, and what was observed, ready to be recorded. */
import { InputError } from "../input-error.ts";
import { comparisonGroups } from "./comparison-groups.ts";
import { type CouponFacts, couponFacts } from "./coupon-facts.ts";
import type { CouponPlace } from "./coupon-place.ts";
import type { AskedResponse } from "./declared-question.ts";
import { usualRustThresholdPercent } from "./look-responses.ts";
import { dayFrom } from "./look-series.ts";
import type { CouponCells, LooksTable, PlainTable } from "./plain-table.ts";
import type { TableAsk } from "./table-question.ts";
import { readingsOf } from "./table-readings.ts";
import { tableBatchStep } from "./trial-applications.ts";
import type { Circumstance, Deviation, ObservationBody, Plan } from "./trial-record.ts";

/** What the table does not hold and a trial does. Lengths in mm. */
export type TableTrialWishes = {
  question: string;
  couponSize: Plan["couponSize"];
  edgeBandMm: number;
  /** Date of day 0 of a table that counts days; null: not known. */
  startedOn: string | null;
  /** Who takes the table over, where it names no inspector. */
  by: string;
};

/** `by`: the inspector, where the table names one. Ids and times of recording are the shop's to give. */
export type ImportedTrial = {
  plan: Plan;
  observations: { by: string; body: ObservationBody }[];
};

/** Plan and observations of any plain table that answers a question. Days, percents, classes, values in their own unit. */
export function trialFromTable(table: PlainTable, ask: TableAsk, wishes: TableTrialWishes): ImportedTrial {
  const facts = couponFacts(table.rows);
  const treatments = [...new Set(facts.map((one) => one.treatment))];
  const groups = comparisonGroups(treatments, ask);
  const start = table.kind === "looks" ? (table.from ?? wishes.startedOn) : wishes.startedOn;
  const role = (name: string) =>
    name === groups.control ? "control" : groups.witnesses.includes(name) ? "witness" : "finish";
  const places = placesOf(facts);
  const plan: Plan = {
    question: wishes.question,
    questions: [
      {
        ...askedOfTable(table, ask),
        family: groups.family,
        margin: ask.margin,
        ...(ask.exploratory ? { exploratory: true } : {}),
      },
    ],
    treatments: treatments.map((name) => ({ name, role: role(name), route: null })),
    couponSize: wishes.couponSize,
    edgeBandMm: wishes.edgeBandMm,
    rustThresholdPercent: ask.thresholdPercent ?? usualRustThresholdPercent,
    lookDays: table.kind === "looks" ? lookDaysOf(table) : [],
    places,
    allocation: {
      how: ask.notRandomised ? "not randomised" : "assumed",
      ...(ask.seed === 1 ? {} : { seed: ask.seed }),
    },
    invented: false,
  };
  const byImporter = (body: ObservationBody) => ({ by: wishes.by, body });
  return {
    plan,
    observations: [
      ...putOutOf(table.rows, start).map(byImporter),
      ...batchesOf(facts, ask).map(byImporter),
      ...readingsOf(table, { blind: !ask.notBlind, by: wishes.by }),
      ...deviationsOf(facts).map(byImporter),
      ...circumstancesOf(facts, keptElsewhere(places, start)).map(byImporter),
    ],
  };
}

/** The response that a table measured. */
export function askedOfTable(table: PlainTable, ask: TableAsk): AskedResponse {
  if (table.kind === "looks") return askedOfLooks(table, ask);
  if (table.kind === "times")
    return table.unit === "days"
      ? { response: "time to first rust", atDay: null }
      : { response: "strokes to breakthrough", place: null, atDay: null };
  if (table.tapeLetter !== null)
    return { response: "tape class", ...(isTapeClass(table.response) ? {} : { named: table.response }), atDay: null };
  const { response: name, valueKind: kind, better, scale } = table;
  return {
    response: "value",
    name,
    kind,
    better,
    unit: "",
    ratio: kind === "continuous" && ask.ratio,
    scale,
    atDay: null,
  };
}

/** Refuses what `findings` of the same looks would refuse. */
function askedOfLooks(table: LooksTable, { response, atDay, scale, thresholdPercent }: TableAsk): AskedResponse {
  const rated = table.readings === "rating";
  if (rated && response === "area")
    throw new InputError("response", "area", '"time" or "grade": a rating does not say how large the area is');
  if (rated && thresholdPercent !== null)
    throw new InputError("threshold", thresholdPercent, "nothing: with ratings, rust is any class worse than the best");
  if (atDay !== null && response !== "area" && response !== "grade")
    throw new InputError("at", atDay, 'nothing, or "area" or "grade": "time" looks at every day');
  if (response === "area") return { response: "rusted area", atDay };
  if (response === "grade") return { response: "grade", scale: table.scale ?? scale ?? "iso10289", atDay };
  return { response: "time to first rust", atDay: null };
}

const isTapeClass = (name: string): boolean => name === "tape class";

const lookDaysOf = (table: LooksTable): number[] =>
  [...new Set(table.rows.flatMap((row) => (row.reading === null ? [] : [dayFrom(row.when, table.from)])))].sort(
    (a, b) => a - b,
  );

/** A rack is kept when each coupon has a numbered place of its own on it. */
function placesOf(facts: readonly CouponFacts[]): CouponPlace[] {
  const racks = facts.map(({ circumstances: { row, column } }) =>
    typeof row === "number" && typeof column === "number" && row >= 1 && column >= 1 ? { row, column } : null,
  );
  const taken = new Set(racks.map((rack) => JSON.stringify(rack)));
  const keep = racks.every((rack) => rack !== null) && taken.size === racks.length;
  return facts.map(({ coupon, treatment, block }, at) => ({
    coupon,
    treatment,
    block,
    rack: keep ? racks[at]! : null,
    spare: false,
  }));
}

function putOutOf(rows: readonly CouponCells[], date: string | null): ObservationBody[] {
  if (date === null) return [];
  const siteOf = new Map<string, string | null>();
  for (const { coupon, site } of rows) siteOf.set(coupon, siteOf.get(coupon) ?? site);
  return [...new Set(siteOf.values())].map((site) => ({
    kind: "put out",
    site,
    date,
    coupons: [...siteOf].flatMap(([coupon, its]) => (its === site ? [coupon] : [])),
  }));
}

/** One carrying-out for each batch of the table; where the user says each coupon was by itself, one for each coupon. */
function batchesOf(facts: readonly CouponFacts[], ask: TableAsk): ObservationBody[] {
  const batches = new Map<string, string[]>();
  const recorded = facts.some((one) => one.applications.batch !== null);
  for (const { coupon, applications } of facts) {
    const batch = recorded ? (applications.batch ?? null) : ask.treatedSeparately ? coupon : null;
    if (batch !== null) batches.set(batch, [...(batches.get(batch) ?? []), coupon]);
  }
  return [...batches].map(([batch, coupons]) => ({
    kind: "application",
    step: tableBatchStep,
    coupons,
    startedAt: null,
    endedAt: null,
    tempC: null,
    note: recorded ? `Batch ${batch} of the table.` : "Treated by itself, as the user said.",
  }));
}

function deviationsOf(facts: readonly CouponFacts[]): Deviation[] {
  const byText = new Map<string, string[]>();
  for (const { coupon, deviation } of facts)
    if (deviation !== null) byText.set(deviation, [...(byText.get(deviation) ?? []), coupon]);
  return [...byText].map(([what, coupons]) => ({ kind: "deviation", coupons, step: null, what, paperworkOnly: false }));
}

/** Circumstances that the plan or the putting out hold already. */
function keptElsewhere(places: readonly CouponPlace[], start: string | null): string[] {
  const onRack = places.some((place) => place.rack !== null);
  return ["inspector", ...(start === null ? [] : ["site"]), ...(onRack ? ["row", "column"] : [])];
}

function circumstancesOf(facts: readonly CouponFacts[], keptElsewhere: readonly string[]): Circumstance[] {
  return facts.flatMap(({ coupon, circumstances }) =>
    Object.entries(circumstances).flatMap(([name, value]): Circumstance[] =>
      value === null || keptElsewhere.includes(name) ? [] : [{ kind: "circumstance", coupon, name, value }],
    ),
  );
}
