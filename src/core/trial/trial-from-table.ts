/** A notebook becomes a trial: the plan that its table shows, and what was observed, ready to be recorded. */
import { InputError } from "../input-error.ts";
import type { TapeClass } from "../rating/tape-classes.ts";
import { tapeClasses } from "../rating/tape-classes.ts";
import { comparisonGroups } from "./comparison-groups.ts";
import { type CouponFacts, couponFacts } from "./coupon-facts.ts";
import { usualRustThresholdPercent } from "./look-responses.ts";
import { dayFrom } from "./look-series.ts";
import {
  type CouponCells,
  type LookRow,
  type LooksTable,
  type PlainTable,
  plainName,
  type ValuesTable,
} from "./plain-table.ts";
import type { TableAsk } from "./table-question.ts";
import { tableBatchStep } from "./trial-applications.ts";
import {
  type CouponPlace,
  type DeclaredQuestion,
  type Deviation,
  type ObservationBody,
  type Plan,
  type TakenDownReason,
  takenDownReasons,
} from "./trial-record.ts";

/** What the table does not hold and a trial does. Lengths in mm. */
export type TableTrialWishes = {
  question: string;
  couponSize: Plan["couponSize"];
  edgeBandMm: number;
  /** Date of day 0 of a table that counts days; null: not known. */
  startedOn: string | null;
  /** When the table is taken over, with its zone, and by whom: for what the table gives no time. */
  importedAt: string;
  by: string;
};

/** `by`: the inspector, where the table names one. Ids and times of recording are the shop's to give. */
export type ImportedTrial = {
  plan: Plan;
  observations: { by: string; body: ObservationBody }[];
  /** What the trial cannot keep of the table, in words. */
  notKept: string[];
};

/** Plan and observations of a table of looks (days, percents) or tape classes. Refuses what a trial has no place for. */
export function trialFromTable(table: PlainTable, ask: TableAsk, wishes: TableTrialWishes): ImportedTrial {
  if (table.kind === "times")
    throw new InputError(
      "table",
      "times",
      "looks or tape classes: a trial keeps what was seen on a day, not the time drawn from it",
    );
  const facts = couponFacts(table.rows);
  const groups = comparisonGroups([...new Set(facts.map((one) => one.treatment))], ask);
  const start = table.kind === "looks" ? (table.from ?? wishes.startedOn) : wishes.startedOn;
  const role = (name: string) =>
    name === groups.control ? "control" : groups.witnesses.includes(name) ? "witness" : "finish";
  const plan: Plan = {
    question: wishes.question,
    questions: [{ ...declaredOf(table, ask), family: groups.family, margin: ask.margin }],
    treatments: [...new Set(facts.map((one) => one.treatment))].map((name) => ({
      name,
      role: role(name),
      route: null,
    })),
    couponSize: wishes.couponSize,
    edgeBandMm: wishes.edgeBandMm,
    rustThresholdPercent: ask.thresholdPercent ?? usualRustThresholdPercent,
    lookDays: table.kind === "looks" ? lookDaysOf(table) : [],
    places: placesOf(facts),
    allocation: ask.notRandomised ? { how: "not randomised" } : { how: "assumed" },
    invented: false,
  };
  const observed = [
    ...putOutOf(table.rows, start).map((body) => ({ by: wishes.by, body })),
    ...batchesOf(facts, ask, wishes).map((body) => ({ by: wishes.by, body })),
    ...(table.kind === "looks" ? looksOf(table, ask, wishes) : tapeTestsOf(table, ask, wishes)),
    ...deviationsOf(facts).map((body) => ({ by: wishes.by, body })),
  ];
  return { plan, observations: observed, notKept: notKept(table, { ask, facts, start, plan }) };
}

function declaredOf(table: LooksTable | ValuesTable, ask: TableAsk): Pick<DeclaredQuestion, "response" | "atDay"> {
  if (table.kind === "values") return { response: "tape class", atDay: null };
  if (table.readings === "rating")
    throw new InputError("rating", "classes", "percents (rusted_percent, or words with --words): a trial keeps areas");
  if (ask.response === "grade") throw new InputError("response", "grade", '"time" or "area": a trial keeps areas');
  return ask.response === "area"
    ? { response: "rusted area", atDay: ask.atDay }
    : { response: "time to first rust", atDay: null };
}

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

const unknownSite = "site not written down";

function putOutOf(rows: readonly CouponCells[], date: string | null): ObservationBody[] {
  if (date === null) return [];
  const siteOf = new Map<string, string | null>();
  for (const { coupon, site } of rows) siteOf.set(coupon, siteOf.get(coupon) ?? site);
  const sites = new Set([...siteOf.values()].map((site) => site ?? unknownSite));
  return [...sites].map((site) => ({
    kind: "put out",
    site,
    date,
    coupons: [...siteOf].flatMap(([coupon, its]) => ((its ?? unknownSite) === site ? [coupon] : [])),
  }));
}

/** One carrying-out for each batch of the table; where the user says each coupon was by itself, one for each coupon. */
function batchesOf(facts: readonly CouponFacts[], ask: TableAsk, { importedAt }: TableTrialWishes): ObservationBody[] {
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
    startedAt: importedAt,
    endedAt: null,
    tempC: null,
    note: recorded ? `Batch ${batch} of the table, which gives no time.` : "Treated by itself, as the user said.",
  }));
}

type Observed = ImportedTrial["observations"][number];

function looksOf(table: LooksTable, ask: TableAsk, wishes: TableTrialWishes): Observed[] {
  const faceOf = facesOf(table.rows);
  return table.rows.flatMap((row): Observed[] => {
    const by = row.inspector ?? wishes.by;
    const look: Observed[] =
      row.reading === null
        ? []
        : [
            {
              by,
              body: {
                kind: "look",
                coupon: row.coupon,
                face: faceOf(row.face),
                when: row.when,
                rustedPercent: row.reading,
                edgePercent: row.edgePercent,
                how: "table",
                blind: !ask.notBlind,
                measurement: null,
              },
            },
          ];
    return [...look, ...takenDownOf(row, by)];
  });
}

function takenDownOf({ coupon, when, takenDown }: LookRow, by: string): Observed[] {
  if (takenDown === null) return [];
  const reason: TakenDownReason = takenDownReasons.find((known) => known === plainName(takenDown)) ?? "other";
  return [{ by, body: { kind: "taken down", coupon, when, reason, note: reason === "other" ? takenDown : "" } }];
}

/** A trial knows a front and a back; other names stand for them in the order in which they appear. */
function facesOf(rows: readonly LookRow[]): (face: string | null) => "front" | "back" {
  const names = [...new Set(rows.flatMap((row) => (row.face === null ? [] : [plainName(row.face)])))];
  if (names.length > 2)
    throw new InputError("face", names, "two faces at most: a trial keeps a front and a back for each coupon");
  const back = names.includes("front")
    ? names.find((name) => name !== "front")
    : (names.find((name) => name === "back") ?? names[1]);
  return (face) => (face !== null && plainName(face) === back ? "back" : "front");
}

function tapeTestsOf(table: ValuesTable, ask: TableAsk, wishes: TableTrialWishes): Observed[] {
  if (table.valueKind !== "ordinal" || table.tapeLetter === null)
    throw new InputError(
      "value",
      table.valueKind,
      "tape classes with their letter, 5A to 0A or 5B to 0B: a trial keeps no other values yet",
    );
  return table.rows.map((row) => ({
    by: row.inspector ?? wishes.by,
    body: {
      kind: "tape test",
      coupon: row.coupon,
      when: { date: wishes.importedAt.slice(0, 10) },
      tapeClass: tapeClassOf(`${row.value}${table.tapeLetter}`),
      blind: !ask.notBlind,
      note: "From a table, which gives no date.",
    },
  }));
}

function tapeClassOf(text: string): TapeClass {
  const known = tapeClasses.find((one) => one === text);
  if (!known) throw new InputError("value", text, "a tape class");
  return known;
}

function deviationsOf(facts: readonly CouponFacts[]): Deviation[] {
  const byText = new Map<string, string[]>();
  for (const { coupon, deviation } of facts)
    if (deviation !== null) byText.set(deviation, [...(byText.get(deviation) ?? []), coupon]);
  return [...byText].map(([what, coupons]) => ({ kind: "deviation", coupons, step: null, what, paperworkOnly: false }));
}

function notKept(
  table: LooksTable | ValuesTable,
  { ask, facts, start, plan }: { ask: TableAsk; facts: readonly CouponFacts[]; start: string | null; plan: Plan },
): string[] {
  const has = (name: string) => facts.some((one) => (one.circumstances[name] ?? null) !== null);
  const named = Object.keys(table.rows[0]?.circumstances ?? {});
  return [
    ...(has("site") && start === null ? ["the sites: the table counts days, and nobody said when day 0 was"] : []),
    ...((has("row") || has("column")) && plan.places.every((place) => place.rack === null)
      ? ["the places on the rack: not every coupon has a numbered row and column of its own"]
      : []),
    ...(has("edge") ? ["the column edge"] : []),
    ...(named.length > 0 ? [`the circumstances ${named.join(", ")}`] : []),
    ...(ask.exploratory
      ? ["that the question was not declared beforehand: the trial's question counts as declared"]
      : []),
    ...(ask.seed === 1 ? [] : [`the seed ${ask.seed}: a trial whose lots nobody drew here is answered with seed 1`]),
  ];
}
