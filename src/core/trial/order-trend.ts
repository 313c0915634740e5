/**
 * A declared order of treatments (more oil, a longer bath) is a question of its own: one exact test of Jonckheere and Terpstra, one p,
 * no adjustment. Its verdict follows the same rules and caps as a comparison.
 */
import { orderedRearrangementTest } from "../statistics/ordered-rearrangement.ts";
import { conductCaps, endReason, unitWord } from "./analysis.ts";
import { largestTellingP } from "./comparable-treatments.ts";
import { confoundingOf } from "./confounding-audit.ts";
import { withoutDeviating } from "./deviation-influence.ts";
import { effectDirection, effectOf } from "./effect.ts";
import { limitsWords, percentWords, sizeWords, turned } from "./effect-words.ts";
import type { Confounded, Effect, Trend } from "./finding.ts";
import { fittedModels } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { comparedPairs, type Drawing, setUnits } from "./rearranged-sets.ts";
import { acceptedBySpread } from "./spread-acceptance.ts";
import { commonEnd, unitScores } from "./unit-scores.ts";
import { type TrialLayout, trialLayout, type Unit, unitsOfReplication } from "./units-of-replication.ts";
import { type Cap, reaches, saysLess, verdictLevels, verdictOf } from "./verdict.ts";

/** The first of the order stands lowest; with what the order could be confused with. */
export function orderTrend(
  question: Question,
  order: readonly string[],
  drawing: Drawing,
): { trend: Trend; confounded: Confounded[] } {
  const ordered = asOrdered(question, order);
  const whole = testedOrder(ordered, drawing);
  const { caps, verdict } = judgedOrder(ordered, whole, drawing);
  const effect = endsEffect(ordered, whole);
  const better = effect ? betterEnd(question, effect) : null;
  const said = { ...whole, effect, caps, verdict, better, order: [...order] };
  const { n, p, pMin, method } = whole;
  return {
    trend: {
      ...{ order: [...order], n, p, pMin, method, effect, verdict },
      sentence: sentenceOf(question, said),
      because: caps.map((cap) => cap.reason),
    },
    confounded: whole.confounded,
  };
}

/** The verdict alone, which is all that a simulated plan asks. */
export function orderIsShown(question: Question, order: readonly string[], drawing: Drawing): boolean {
  const ordered = asOrdered(question, order);
  return judgedOrder(ordered, testedOrder(ordered, drawing), drawing).verdict === "shown";
}

const asOrdered = (question: Question, order: readonly string[]): Question => ({
  ...question,
  treatments: [...order],
  family: "pairs",
  control: null,
});

/** What hangs on coupons that deviated is capped. */
function judgedOrder(question: Question, whole: Tested, drawing: Drawing): Pick<Trend, "verdict"> & { caps: Cap[] } {
  const lighter = withoutDeviating(question, whole.units);
  const without = lighter && testedOrder(lighter, drawing);
  const caps = [...whole.caps, ...(without && fallsWithout(whole, without) ? [hangsOnDeviations] : [])];
  return { caps, verdict: verdictOf({ n: twoOf(whole.n), pAdjusted: whole.p, equivalence: null, caps }) };
}

type Tested = Pick<Trend, "n" | "p" | "pMin" | "method"> & {
  units: Unit[];
  caps: Cap[];
  confounded: Confounded[];
};

function testedOrder(question: Question, drawing: Drawing): Tested {
  const layout = trialLayout(question);
  const { treatments } = question;
  const units = unitsOfReplication(question, layout, { treatments, pairs: comparedPairs(treatments, "pairs") });
  const n = treatments.map((name) => units.filter((unit) => unit.treatment === name).length);
  const end = commonEnd(question, units);
  if (Math.min(...n) === 0 || end !== null) {
    const reason = end === null ? "a treatment of the order was not seen" : endReason(question, end, units);
    return { units, n, p: null, pMin: null, method: "", caps: [nothing(reason)], confounded: [] };
  }
  const moved = setUnits(question, layout, treatments, "pairs");
  const accepts = acceptedBySpread(question, moved, treatments);
  const ask = { accepts, seed: question.seed, draws: drawing.draws };
  const { p, pMin, rearrangements, drawn } = orderedRearrangementTest(unitScores(question, moved, treatments), ask);
  const counted =
    drawn === null ? `all ${rearrangements} rearrangements` : `${drawn} random ones, seed ${question.seed}`;
  return {
    ...{ units, n, p, pMin },
    method: `exact Jonckheere-Terpstra test of the declared order, ${counted}`,
    ...trendCaps(question, layout, { units, n, pMin }),
  };
}

/** From the first to the last; null where nothing was tested or a treatment has one unit. */
function endsEffect(question: Question, { n, p, units }: Tested): Effect | null {
  if (p === null || Math.min(...n) < 2) return null;
  const of = (name: string | undefined) => units.filter((unit) => unit.treatment === name);
  const fitted = fittedModels(question, trialLayout(question)).family;
  const ends: [Unit[], Unit[]] = [of(question.treatments.at(-1)), of(question.treatments[0])];
  return effectOf(question, fitted, ends, { pMin: 0, confidence: 0.95 });
}

const nothing = (reason: string): Cap => ({ atMost: "cannot be told", reason, againstEquivalence: true });
const suggested = (reason: string): Cap => ({ atMost: "suggested", reason, againstEquivalence: true });
const twoOf = (n: readonly number[]): [number, number] => [Math.min(...n), Math.max(...n)];

function trendCaps(
  question: Question,
  layout: TrialLayout,
  { units, n, pMin }: { units: Unit[]; n: number[]; pMin: number },
): Pick<Tested, "caps" | "confounded"> {
  const { treatments } = question;
  const alone = treatments.filter((_, at) => n[at] === 1);
  const seldom = `even the clearest order would come by chance once in ${Math.round(1 / pMin)} trials`;
  const caps: Cap[] = [];
  if (!question.declared) caps.push(suggested("the order was not declared before the first look"));
  if (alone.length > 0) caps.push(nothing(`there is one ${unitWord([units, []]).slice(0, -1)} of ${alone.join(", ")}`));
  else if (!reaches(pMin, largestTellingP)) caps.push(nothing(seldom));
  else if (!reaches(pMin, verdictLevels.shown)) caps.push(suggested(seldom));
  if (Math.min(...n) === 2) caps.push(suggested(`there are only two ${unitWord([units, []])} of a treatment`));
  const confounded = comparedPairs(treatments, "pairs").flatMap((pair) =>
    confoundedPair(question, layout, units, pair),
  );
  for (const { how, circumstance, treatments: pair } of confounded) {
    if (how === "fully") caps.push(nothing(`${circumstance} differs wherever ${pair.join(" and ")} do`));
    if (how === "heavily") caps.push(suggested(`${circumstance} differs almost as ${pair.join(" and ")} do`));
  }
  return { caps: [...caps, ...conductCaps(question)], confounded };
}

function confoundedPair(
  question: Question,
  layout: TrialLayout,
  units: readonly Unit[],
  [first, second]: readonly [string, string],
): Confounded[] {
  const own = (name: string) => units.filter((unit) => unit.treatment === name);
  const pair = { first, second, units: [own(first), own(second)] as const, layout: layout.pair(first, second) };
  return confoundingOf(question, pair).map(({ circumstance, how }) => ({
    circumstance,
    treatments: [first, second],
    how,
  }));
}

const hangsOnDeviations = suggested("this hangs on coupons that deviated");

/** What was shown is less without the coupons that deviated, though these few could still show it. */
function fallsWithout(whole: Tested, without: Tested): boolean {
  const verdict = ({ n, p, caps }: Tested) => verdictOf({ n: twoOf(n), pAdjusted: p, equivalence: null, caps });
  const tells = without.pMin !== null && reaches(without.pMin, verdictLevels.shown);
  return tells && saysLess(verdict(without), verdict(whole));
}

function betterEnd(question: Question, effect: Effect): "last" | "first" {
  const { neutral, moreIsBetter } = effectDirection(question, effect);
  const seen = effect.value ?? effect.lower ?? effect.upper ?? neutral;
  return seen > neutral === moreIsBetter ? "last" : "first";
}

/** A comma may stand in a name. */
export const orderWords = (order: readonly string[]): string => order.join(" → ");

type Said = Tested & Pick<Trend, "order" | "verdict" | "effect"> & { better: "last" | "first" | null };

function sentenceOf(question: Question, said: Said): string {
  const { order, verdict, n, p, effect, better, caps } = said;
  const names = orderWords(order);
  const [top, bottom] = better === "first" ? [order[0], order.at(-1)] : [order.at(-1), order[0]];
  const own = effect && (better === "first" ? turned(effect) : effect);
  const size =
    own === null || own.value === null ? "" : `: ${sizeWords(question, own, own.value)} from ${bottom} to ${top}`;
  const limits = own === null ? "" : ` (${percentWords(own.confidence)} ${limitsWords(own)})`;
  const chance =
    p === null || p > 0.5
      ? ""
      : `had the order made no difference, a trend this strong would turn up in at most about one such trial in ${Math.floor(1 / p + 1e-9)}`;
  const towards = better === "first" ? `towards ${order[0]}` : `towards ${order.at(-1)}`;
  switch (verdict) {
    case "shown":
      return `Along the order ${names} it gets better ${towards}${size}${limits}. With ${n.join(", ")} units: ${chance}.`;
    case "suggested":
      return `It looks as if along the order ${names} it gets better ${towards}${size}${limits}, but ${caps[0]?.reason ?? chance}. Do not build on it yet.`;
    case "cannot be told":
      return `About the order ${names} this trial can say nothing, because ${caps.find((cap) => cap.atMost === "cannot be told")?.reason ?? ""}.`;
    default:
      return `This trial does not show that the order ${names} makes a difference.${own === null ? "" : ` From ${bottom} to ${top} it may still be${limits}.`}`;
  }
}
