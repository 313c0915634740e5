/**
 * The next trial behind "what would tell", to be simulated: laid out as this one, each unit by itself, with this trial's own scatter. The
 * truth is the pair's difference at the margin and every other treatment as this trial estimates it.
 */
import { mean } from "../statistics/moments.ts";
import { assumedScatter } from "./assumed-scatter.ts";
import { effectDirection } from "./effect.ts";
import type { Finding, QuestionFindings } from "./finding.ts";
import { type Fitted, fittedModels } from "./fitted-models.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { wouldWords } from "./sentences.ts";
import type { SimulatedTrial, Spread } from "./simulated-trial.ts";
import { inspectionInterval, unitValue } from "./unit-scores.ts";
import { trialLayout } from "./units-of-replication.ts";
import { isWearUnit } from "./wear-conditions.ts";
import { askedPowers, leastUnits, mostUnits, sizeToFind, sizeWords, trialScatter } from "./would-tell.ts";

export type NextTrial = Pick<Finding, "first" | "second"> & {
  /** Units of each by the formula, for the lower power; where there is none, from where the search begins. */
  start: number;
  /** The trial with so many units of each treatment. */
  trialOf: (each: number) => SimulatedTrial;
};

/** Where nothing tells how many, the search begins here. */
const unknownStart = 8;

/** One for each comparison of the declared family that is still open and within reach. */
export function nextTrials(question: Question, { findings }: Pick<QuestionFindings, "findings">): NextTrial[] {
  const fitted = fittedModels(question, trialLayout(question)).family;
  const size = question.kind === "binary" ? (question.margin ?? binaryDifference) : sizeToFind(question, fitted.units);
  const inFamily = (one: Finding) => question.family === "pairs" || one.second === question.control;
  return findings.filter(inFamily).flatMap((finding): NextTrial[] => {
    const start = question.kind === "binary" ? binaryStart(finding) : (finding.wouldTell?.[0]?.perTreatment ?? null);
    if (start === null || size === null) return [];
    const { first, second } = finding;
    const centres = truthOf(question, fitted, finding, size);
    return [{ first, second, start, trialOf: (each) => nextTrial(question, fitted, { each, centres }) }];
  });
}

/** There is no formula for yes and no; a difference of 0.2 is found where the user stated none. */
const binaryDifference = 0.2;

function binaryStart({ verdict, n }: Finding): number | null {
  if (verdict === "shown" || verdict === "equivalent within the margin") return null;
  return Math.max(unknownStart, ...n);
}

/** The smallest numbers of units with the asked powers; null: more than are within reach. `chanceAt` with the same seeds for any number. */
export async function confirmedUnits(
  { kind }: Pick<Question, "kind">,
  start: number,
  chanceAt: (each: number) => Promise<number>,
): Promise<NonNullable<Finding["wouldTell"]>> {
  const least = kind === "continuous" ? leastUnits.continuous : leastUnits.exact;
  const known = new Map<number, number>();
  const chance = async (each: number) => {
    const found = known.get(each) ?? (await chanceAt(each));
    known.set(each, found);
    return found;
  };
  let each = Math.max(least, start - 2);
  while (each > least && (await chance(each)) >= askedPowers[0]) each--;
  const rows: NonNullable<Finding["wouldTell"]> = [];
  for (const power of askedPowers) {
    while (each <= mostUnits && (await chance(each)) < power) each++;
    rows.push({ power, perTreatment: each <= mostUnits ? each : null });
  }
  return rows;
}

/** The finding with the numbers that a simulation confirmed, in its sentence too. */
export function withConfirmed(question: Question, finding: Finding, wouldTell: Finding["wouldTell"]): Finding {
  const layout = trialLayout(question).pair(finding.first, finding.second);
  const words = (of: Finding["wouldTell"]) => wouldWords(question, { wouldTell: of, otherwise: null, layout });
  const formula = words(finding.wouldTell);
  const sentence = formula === "" ? finding.sentence : finding.sentence.replace(formula, words(wouldTell));
  return { ...finding, wouldTell, sentence };
}

/** For which truth, and with what a next trial was simulated. */
export function nextTrialNote(question: Question, trials: number): string {
  const looks = question.kind === "time" ? ", looked at on the same days as this one" : "";
  const scatter = scatterWords(question);
  return `What would tell was confirmed by ${trials} simulated trials for each number of units${looks}: the pair differs by ${sizeWords(question)}, all others stand as this trial estimates them, every coupon is treated by itself.${scatter}`;
}

/** What a plan of the next trial can be told: the cautious scatter, and where the control stood. */
function scatterWords(question: Question): string {
  const fitted = fittedModels(question, trialLayout(question)).family;
  const spread = spreadOf(question, fitted);
  if (spread.of !== "time" || spread.law.name !== "Weibull") return "";
  const shape = Number(spread.law.shape.toPrecision(2));
  const control = question.control;
  const median = control === null ? null : Math.exp(estimatedCentre(question, fitted, control));
  const half = median === null ? "" : `, half of ${control} rusted by day ${Number(median.toPrecision(2))}`;
  return ` Taken from this trial: Weibull shape ${shape} (its cautious limit)${half}.`;
}

/** What a next trial is simulated with: the cautious scatter, the blocks, and where a treatment stood, on the simulation's scale. */
export function nextTrialScatter(question: Question): {
  spread: Spread;
  blockSd: number;
  units: number;
  centre: (treatment: string) => number;
} {
  const fitted = fittedModels(question, trialLayout(question)).family;
  return {
    spread: spreadOf(question, fitted),
    blockSd: blockSdOf(fitted),
    units: fitted.units.length,
    centre: (treatment) => estimatedCentre(question, fitted, treatment),
  };
}

/** Where the fit has no blocks in it, their scatter is in the shape already. */
const blockSdOf = ({ time }: Fitted): number => (time?.blocksIn ? assumedScatter.blockLogSd : 0);

function nextTrial(
  question: Question,
  fitted: Fitted,
  { each, centres }: { each: number; centres: Readonly<Record<string, number>> },
): SimulatedTrial {
  const inBlock = unitsInBlock(fitted);
  const coupons = question.treatments.flatMap((treatment) =>
    Array.from(
      { length: each },
      (_, at): QuestionCoupon => ({
        coupon: `${treatment} ${at + 1}`,
        treatment,
        block: inBlock === null ? null : String(Math.floor(at / inBlock) + 1),
        applications: {},
        circumstances: {},
        deviation: null,
        datum: { left: 0, right: 1 },
      }),
    ),
  );
  const { spread: _spread, order: _order, ...asked } = question;
  return {
    question: {
      ...asked,
      coupons,
      witnesses: [],
      routes: null,
      randomised: true,
      blind: true,
      declared: true,
      treatedSeparately: "confirmed",
      notes: [],
    },
    spread: spreadOf(question, fitted),
    centres: [centres],
    blockSd: blockSdOf(fitted),
    batchSd: 0,
    lostShare: assumedScatter.lostShare,
    seed: question.seed,
  };
}

/** Units of one treatment in one block, on average; null: no blocks. */
function unitsInBlock({ units }: Fitted): number | null {
  const blocks = new Set(units.map((unit) => unit.block)).size;
  const treatments = new Set(units.map((unit) => unit.treatment)).size;
  return blocks === 1 ? null : Math.max(1, Math.round(units.length / blocks / treatments));
}

function spreadOf(question: Question, fitted: Fitted): Spread {
  const sigma = trialScatter(question, fitted) ?? 0;
  switch (question.kind) {
    case "time":
      return {
        of: "time",
        law: isWearUnit(question.unit) ? { name: "lognormal", logSd: sigma } : { name: "Weibull", shape: 1.05 / sigma },
        looks: looksOf(question),
      };
    case "area":
      return { of: "area", log10Sd: sigma / Math.LN10 };
    case "ordinal":
      return { of: "class", sd: sigma };
    case "continuous":
      return { of: "value", sd: sigma };
    case "binary":
      return { of: "share" };
  }
}

/** Every day, or number of strokes, at which a coupon was seen. */
function looksOf({ coupons }: Question): number[] {
  const seen = coupons.map(inspectionInterval).flatMap(({ leftDays, rightDays }) => [leftDays, rightDays ?? 0]);
  return [...new Set(seen)].filter((look) => look > 0).sort((a, b) => a - b);
}

/** The first of the pair at the margin from the second, to the side on which it was seen; the others as estimated. */
function truthOf(question: Question, fitted: Fitted, finding: Finding, size: number): Record<string, number> {
  const { first, second } = finding;
  const estimated = Object.fromEntries(
    question.treatments.map((name) => [name, estimatedCentre(question, fitted, name)] as const),
  );
  const upwards = (question.kind === "time" || question.better === "higher") === isFirstBetter(question, finding);
  const step = (question.kind === "area" ? size / Math.LN10 : size) * (upwards ? 1 : -1);
  const centre = estimated[second]! + step;
  const inside = question.kind === "binary" ? Math.min(1, Math.max(0, centre)) : centre;
  return { ...estimated, [first]: inside };
}

function isFirstBetter(question: Question, { effect }: Finding): boolean {
  const seen = effect && (effect.value ?? effect.lower ?? effect.upper);
  if (effect === null || seen === null) return true;
  const { neutral, moreIsBetter } = effectDirection(question, effect);
  return seen >= neutral === moreIsBetter;
}

function estimatedCentre(question: Question, { units, time }: Fitted, treatment: string): number {
  const own = units.filter((unit) => unit.treatment === treatment);
  if (question.kind !== "time") return mean(own.map((unit) => unitValue(question, unit)));
  const looks = looksOf(question);
  const fitted = time?.logMedian(treatment) ?? Number.NaN;
  if (Number.isFinite(fitted)) return fitted;
  // Never rusted: beyond twice the last look. All rusted by the first: half of it.
  const rusted = own.flatMap((unit) => unit.coupons).some((coupon) => inspectionInterval(coupon).rightDays !== null);
  return Math.log(rusted ? looks[0]! / 2 : 2 * looks.at(-1)!);
}
