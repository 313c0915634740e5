/**
 * Invented data for the layout of a real plan, from a truth that is known: what a simulation hands to the finding code, trial by trial.
 *
 * A time is ln T = centre + block + batch + W / shape with W = ln(E / ln 2), E exponential, so that the centre is the logarithm of the
 * median; strokes are lognormal, areas lognormal, classes normal, rounded and cut to the scale. Blocks and batches are normal.
 */
import { InputError, requireWhole } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { seededRandom } from "../numeric/random.ts";
import type { Question, QuestionCoupon, TimeDatum, ValueDatum } from "./question.ts";

/** How single coupons scatter about the centre of their treatment, on the scale of `centres`. */
export type Spread =
  /** `looks`: days or strokes at which every coupon is seen, ascending, above 0. */
  | { of: "time"; law: { name: "Weibull"; shape: number } | { name: "lognormal"; logSd: number }; looks: number[] }
  | { of: "area"; log10Sd: number }
  | { of: "class"; sd: number }
  | { of: "value"; sd: number }
  | { of: "share" };

export type SimulatedTrial = {
  /** Layout and rules of the trial; its data are not read. */
  question: Question;
  spread: Spread;
  /**
   * The truth by treatment, one for each trial in turn: ln of the median time, log10 of the area in %, the class, the value (ln where
   * ratios are compared), the share of the good outcome.
   */
  centres: Readonly<Record<string, number>>[];
  /** On the scale of `centres`. */
  blockSd: number;
  batchSd: number;
  /** Share of the coupons lost on the way. */
  lostShare: number;
  /** Trial t draws from seed + t: the same numbers for any n and any factor, so that neighbours can be compared. */
  seed: number;
};

/** Streams of one trial: blocks, batches, then one for each treatment. */
const streams = 64;

/** The truth of trial `at`. */
export function centresOf({ centres }: SimulatedTrial, at: number): Readonly<Record<string, number>> {
  const own = centres[at % centres.length];
  if (!own) throw new InputError("centres", centres.length, "at least one truth to simulate");
  return own;
}

/** The question of trial `at`, counted from 0, with drawn data. A coupon lost before it told anything is left out. */
export function drawnQuestion(trial: SimulatedTrial, at: number): Question {
  requireWhole("at", at);
  const { question } = trial;
  const streamOf = (stream: number) => fractions((trial.seed + at) * streams + stream);
  const blocks = effects(
    question.coupons.map((coupon) => [coupon.block ?? ""]),
    trial.blockSd,
    streamOf(0),
  );
  const sharing = sharedApplications(question.coupons);
  const batches = effects(sharing, trial.batchSd, streamOf(1));
  const centres = centresOf(trial, at);
  const own = new Map(question.treatments.map((name, place) => [name, streamOf(2 + place)]));
  const onlyBlock = new Set(question.coupons.map((coupon) => coupon.block)).size === 1;
  const coupons = question.coupons.flatMap((coupon, place): QuestionCoupon[] => {
    const draw = own.get(coupon.treatment);
    const centre = centres[coupon.treatment];
    if (!draw || centre === undefined) return [];
    const batch =
      sharing[place]!.reduce((sum, one) => sum + batches.get(one)!, 0) / Math.sqrt(sharing[place]!.length || 1);
    const datum = drawnDatum(trial, centre + batch + (onlyBlock ? 0 : blocks.get(coupon.block ?? "")!), draw);
    return datum ? [{ ...coupon, datum }] : [];
  });
  return { ...question, coupons, seed: at + 1 };
}

type Draw = () => number;

/** Fractions strictly between 0 and 1. */
function fractions(seed: number): Draw {
  const { next } = seededRandom(seed);
  return () => (next() * 2 ** 53 + 0.5) / 2 ** 53;
}

/** One normal effect for each name, in the order in which the names appear. */
function effects(names: readonly (readonly string[])[], sd: number, draw: Draw): Map<string, number> {
  const found = new Map<string, number>();
  for (const name of names.flat()) if (!found.has(name)) found.set(name, sd * normalQuantile(draw()));
  return found;
}

/** The goes that a coupon had in common with others; of several the effects are averaged so that they scatter as one. */
function sharedApplications(coupons: readonly QuestionCoupon[]): string[][] {
  const keysOf = ({ applications }: QuestionCoupon) =>
    Object.entries(applications).flatMap(([step, went]) => (went === null ? [] : [JSON.stringify([step, went])]));
  const counts = new Map<string, number>();
  for (const key of coupons.flatMap(keysOf)) counts.set(key, (counts.get(key) ?? 0) + 1);
  return coupons.map((coupon) => keysOf(coupon).filter((key) => counts.get(key)! > 1));
}

/** Always the same number of draws for a coupon, lost or not. */
function drawnDatum({ spread, lostShare, question }: SimulatedTrial, centre: number, draw: Draw) {
  const [own, loss, when] = [draw(), draw(), draw()];
  const lost = loss < lostShare;
  if (spread.of === "time") return drawnTime(spread, centre, own, lost ? when : null);
  if (lost) return null;
  const value = drawnValue(spread, question, centre, own);
  return { value } satisfies ValueDatum;
}

/** Seen at the looks only; `lostAt` as a share of the whole time. null: lost before the first look. */
function drawnTime(
  { law, looks }: Extract<Spread, { of: "time" }>,
  centre: number,
  fraction: number,
  lostAt: number | null,
): TimeDatum | null {
  const noise =
    law.name === "Weibull"
      ? Math.log(-Math.log(fraction) / Math.LN2) / law.shape
      : law.logSd * normalQuantile(fraction);
  const time = Math.exp(centre + noise);
  const end = lostAt === null ? Number.POSITIVE_INFINITY : lostAt * looks.at(-1)!;
  let left = 0;
  for (const look of looks) {
    if (look > end) break;
    if (time <= look) return { left, right: look };
    left = look;
  }
  return left === 0 ? null : { left, right: null };
}

function drawnValue(
  spread: Exclude<Spread, { of: "time" }>,
  question: Question,
  centre: number,
  fraction: number,
): number {
  switch (spread.of) {
    case "area":
      return Math.min(100, 10 ** (centre + spread.log10Sd * normalQuantile(fraction)));
    case "class":
      return cutToScale(question, Math.round(centre + spread.sd * normalQuantile(fraction)));
    case "value": {
      const value = centre + spread.sd * normalQuantile(fraction);
      return question.ratio ? Math.exp(value) : value;
    }
    case "share":
      return fraction < centre ? 1 : 0;
  }
}

function cutToScale({ scale }: Question, value: number): number {
  if (scale === null) return value;
  const [low, high] = [Math.min(scale.best, scale.worst), Math.max(scale.best, scale.worst)];
  return Math.min(high, Math.max(low, value));
}
