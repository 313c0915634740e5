/**
 * Trials whose truth is known, as questions for the findings.
 *
 * Times: Weibull shape 2, scale 30 days, weekly looks for 12 weeks. Measured values: normal on the log scale, SD 0.35. Areas: log10 SD
 * 0.4, median 3 %, seen from 0.01 %. Classes: normal SD 1 around 6, rounded and cut to 0..10, a factor f moves them by 2 ln f.
 * Yes or no: 60 % survive, a factor f leaves 1/f² of the failures. Blocks: log SD 0.25; batches: log SD 0.2 unless said.
 */
import { normalQuantile } from "../src/core/numeric/normal-distribution.ts";
import { seededRandom } from "../src/core/numeric/random.ts";
import type { Finding, ResponseKind } from "../src/core/trial/finding.ts";
import type { DrawnPlace, Question, QuestionCoupon } from "../src/core/trial/question.ts";
import { noTreatmentAllOnOneEdge } from "../src/core/trial/spread-rule.ts";

/**
 * "one each": every treatment has one batch of its own. "finishes share one": all but the control went through one bath run.
 * "two baths": the first half of the treatments through runs of one bath, the second half through runs of another, one coupon of each
 * treatment of the bath in each run, finished one by one (a split plot).
 */
export type Batches = "one each" | "finishes share one" | "two baths";

export type InventedTrial = {
  kind: ResponseKind;
  /** null: free. Else the coupons of each treatment per block. */
  perBlock: number | null;
  /** How many times better than the first, by treatment; the first is the control. */
  factors: readonly number[];
  /** Coupons by treatment, or the same for all. */
  n: number | readonly number[];
  /** Scatter of measured values by treatment, in times the usual one. */
  scatter?: readonly number[];
  margin?: number;
  family?: "control" | "pairs";
  lookDays?: readonly number[];
  batches?: Batches;
  /** Scatter between runs on the log scale. */
  batchLogSd?: number;
  /** Coupons hang on a rack of so many rows, drawn anew until no treatment hangs all on one edge; the first row rusts sooner. */
  rackRows?: number;
};

const blockSd = 0.25;
const usualBatchSd = 0.2;
const sharedRun = "the run";
/** ln factor of the first row of a rack: half the time. */
const firstRowLog = -Math.LN2;
const weekly = Array.from({ length: 12 }, (_, week) => 7 * (week + 1));

export function treatmentNames(trial: InventedTrial): string[] {
  return trial.factors.map((_, at) => (at === 0 ? "control" : `finish ${at}`));
}

export type Draw = { normal: () => number; fraction: () => number };

export function drawFrom(seed: number): Draw {
  const random = seededRandom(seed);
  const fraction = () => (random.next() * 2 ** 53 + 0.5) / 2 ** 53;
  return { fraction, normal: () => normalQuantile(fraction()) };
}

export function inventedQuestion(trial: InventedTrial, draw: Draw, seed: number): Question {
  const treatments = treatmentNames(trial);
  const sizes = trial.factors.map((_, at) => (typeof trial.n === "number" ? trial.n : trial.n[at]!));
  const perBlock = trial.perBlock ?? Math.max(...sizes);
  const blockLogs = Array.from({ length: Math.ceil(Math.max(...sizes) / perBlock) }, () =>
    trial.perBlock === null ? 0 : blockSd * draw.normal(),
  );
  const batchSd = trial.batchLogSd ?? usualBatchSd;
  const batchLogs = new Map<string, number>([[sharedRun, batchSd * draw.normal()]]);
  const rack = trial.rackRows === undefined ? null : hung(treatments, sizes, trial.rackRows, draw);
  const coupons = treatments.flatMap((treatment, at) =>
    Array.from({ length: sizes[at]! }, (_, unit): QuestionCoupon => {
      const coupon = `${at}-${unit}`;
      const block = Math.floor(unit / perBlock);
      const batch = batchOf(trial, at, unit);
      if (batch !== null && !batchLogs.has(batch)) batchLogs.set(batch, batchSd * draw.normal());
      const batchLog = batch === null ? 0 : batchLogs.get(batch)!;
      const placeLog = rack?.find((place) => place.coupon === coupon)?.row === 1 ? firstRowLog : 0;
      const log = Math.log(trial.factors[at]!) + blockLogs[block]! + batchLog + placeLog;
      return {
        coupon,
        treatment,
        block: trial.perBlock === null ? null : `block ${block}`,
        ...(trial.batches === "two baths" ? { plot: batch! } : {}),
        applications: applicationsOf(trial, { at, unit, batch }),
        circumstances: {},
        deviation: null,
        datum: datumOf(trial, { log, scatter: trial.scatter?.[at] ?? 1 }, draw),
      };
    }),
  );
  return {
    ...asked[trial.kind],
    kind: trial.kind,
    margin: trial.margin ?? asked[trial.kind].margin,
    family: trial.family ?? "control",
    control: trial.family === "pairs" ? null : "control",
    treatments,
    treatedSeparately: trial.batches ? "recorded" : "confirmed",
    coupons,
    seed,
    witnesses: [],
    routes: trial.batches === "two baths" ? bathRoutes(treatments) : null,
    randomised: true,
    blind: true,
    declared: true,
    notes: [],
    ...(rack ? { spread: { rule: "no treatment all on one edge", places: rack } } : {}),
  };
}

function batchOf({ batches, factors }: InventedTrial, at: number, unit: number): string | null {
  if (batches === undefined || (batches === "finishes share one" && at === 0)) return null;
  if (batches === "two baths") return `run ${unit} of bath ${bathOf(factors.length, at)}`;
  return batches === "one each" ? `batch ${at}` : sharedRun;
}

function bathOf(treatments: number, at: number): number {
  return at < treatments / 2 ? 1 : 2;
}

/** A step of the bath, done to the run, and a finish, put on each coupon by itself; the halves have the same finishes. */
function bathRoutes(treatments: readonly string[]): Record<string, string[]> {
  const half = treatments.length / 2;
  return Object.fromEntries(
    treatments.map((name, at) => [name, [`bath ${bathOf(treatments.length, at)}`, `oil ${at % half}`]]),
  );
}

function applicationsOf(
  { batches, factors }: InventedTrial,
  { at, unit, batch }: { at: number; unit: number; batch: string | null },
): QuestionCoupon["applications"] {
  if (batches === undefined) return {};
  if (batches !== "two baths") return { batch };
  return {
    [`bath ${bathOf(factors.length, at)}`]: batch,
    [`oil ${at % (factors.length / 2)}`]: `${at}-${unit} by itself`,
  };
}

/** Places row by row, dealt out until the draw is spread. */
function hung(treatments: readonly string[], sizes: readonly number[], rows: number, draw: Draw): DrawnPlace[] {
  const coupons = treatments.flatMap((treatment, at) =>
    Array.from({ length: sizes[at]! }, (_, unit) => ({ coupon: `${at}-${unit}`, treatment })),
  );
  const columns = Math.ceil(coupons.length / rows);
  for (;;) {
    const keys = coupons.map(() => draw.fraction());
    const order = [...coupons.keys()].sort((a, b) => keys[a]! - keys[b]!);
    const places = order.map((at, place) => ({
      ...coupons[at]!,
      row: 1 + Math.floor(place / columns),
      column: 1 + (place % columns),
    }));
    if (noTreatmentAllOnOneEdge(places)) return places;
  }
}

type Asked = Pick<Question, "response" | "unit" | "better" | "ratio" | "detectionLimitPercent" | "scale"> & {
  margin: number;
};
const plain = { ratio: false, detectionLimitPercent: null, scale: null, better: "higher" } as const;
const asked: Record<ResponseKind, Asked> = {
  time: { ...plain, response: "time to first rust", unit: "days", margin: 1.5 },
  continuous: { ...plain, response: "coating mass", unit: "g/m²", margin: 1.5, ratio: true },
  area: { ...plain, response: "rusted area", unit: "%", better: "lower", margin: 2, detectionLimitPercent: 0.01 },
  ordinal: { ...plain, response: "grade", unit: "classes", margin: 1, scale: { best: 10, worst: 0 } },
  binary: { ...plain, response: "survived", unit: "", margin: 0.2 },
};

function datumOf(
  trial: InventedTrial,
  { log, scatter }: { log: number; scatter: number },
  draw: Draw,
): QuestionCoupon["datum"] {
  switch (trial.kind) {
    case "time": {
      const days = 30 * Math.exp(log) * Math.sqrt(-Math.log(draw.fraction()));
      const looks = trial.lookDays ?? weekly;
      const right = looks.find((look) => look >= days) ?? null;
      return { left: looks.findLast((look) => look < days) ?? 0, right };
    }
    case "continuous":
      return { value: 5 * Math.exp(log + 0.35 * scatter * draw.normal()) };
    case "area":
      return { value: Math.min(100, 3 * Math.exp(-log) * 10 ** (0.4 * draw.normal())) };
    case "ordinal":
      return { value: Math.min(10, Math.max(0, Math.round(6 + 2 * log + draw.normal()))) };
    case "binary":
      return { value: draw.fraction() < survivors(log) ? 1 : 0 };
  }
}

function survivors(log: number): number {
  return 1 - 0.4 * Math.exp(-2 * log);
}

/** Whether the two truly differ by the margin or more, so that "equivalent" would be false. */
export function beyondMargin(trial: InventedTrial, { first, second }: Pick<Finding, "first" | "second">): boolean {
  const names = treatmentNames(trial);
  const [one, other] = [first, second].map((name) => Math.log(trial.factors[names.indexOf(name)]!));
  const margin = trial.margin ?? asked[trial.kind].margin;
  const apart = {
    time: Math.exp(Math.abs(one! - other!)),
    continuous: Math.exp(Math.abs(one! - other!)),
    area: Math.exp(Math.abs(one! - other!)),
    ordinal: 2 * Math.abs(one! - other!),
    binary: Math.abs(survivors(one!) - survivors(other!)),
  }[trial.kind];
  return apart >= margin - 1e-9;
}

/** What an interval of the finding should hold; null: this kind of effect has no plain truth here. */
export function trueEffect(trial: InventedTrial, { first, second, effect }: Finding): number | null {
  const names = treatmentNames(trial);
  const factorOf = (name: string) => trial.factors[names.indexOf(name)]!;
  const ratio = factorOf(first) / factorOf(second);
  switch (effect?.name) {
    case "time ratio":
    case "ratio":
      return ratio;
    case "area ratio":
      return 1 / ratio;
    case "class shift":
    case "Cliff's delta":
      // Rounding and the ends of the scale bend any other shift.
      return ratio === 1 ? 0 : null;
    case "difference of shares":
      return survivors(Math.log(factorOf(first))) - survivors(Math.log(factorOf(second)));
    default:
      return null;
  }
}
