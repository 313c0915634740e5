/** Simulated trials, counted: how often a true difference is shown, all of them are, and a false one is. */
import { requireWhole } from "../input-error.ts";
import type { Question } from "./question.ts";
import { knownLayout, orderEnds, type ShownComparison, shownComparisons } from "./shown-comparisons.ts";
import { centresOf, drawnQuestion, type SimulatedTrial } from "./simulated-trial.ts";

/** Rearrangements drawn in a simulated trial where not all are counted: enough for a "yes" or "no". */
export const simulatedDraws = 499;

export type PairTally = { first: string; second: string; differing: number; shown: number };

/** Counts of some trials; counts of other trials of the same plan can be added. */
export type SimulationTally = {
  trials: number;
  /** The comparisons of the declared family; of a declared order its two ends. */
  pairs: PairTally[];
  /** Trials with a true difference; the share of them that was shown, summed over trials, and its squares. */
  differing: number;
  shareSum: number;
  squaredShareSum: number;
  allShown: number;
  /** Trials with a "shown" where there is no difference, anywhere. */
  falselyShown: number;
};

/** A share of trials with its Monte Carlo standard error. */
export type SimulatedShare = { share: number; error: number };
export type SimulatedChances = {
  trials: number;
  /** Of a true difference, on average over those of the family. null: nothing differs in truth. */
  each: SimulatedShare | null;
  all: SimulatedShare | null;
  falselyShown: SimulatedShare;
  pairs: { first: string; second: string; shown: SimulatedShare | null }[];
};

/** Trials `from` up to, not including, `to`: the same counts whoever asks, in whatever parts. */
export function talliedTrials(trial: SimulatedTrial, { from, to }: { from: number; to: number }): SimulationTally {
  requireWhole("from", from);
  requireWhole("to", to, from);
  const tally = emptyTally(trial);
  const { question } = trial;
  const whole = question.kind === "continuous" || question.order !== undefined ? undefined : knownLayout(question);
  for (let at = from; at < to; at++) {
    const centres = centresOf(trial, at);
    const drawn = drawnQuestion(trial, at);
    const known = drawn.coupons.length === question.coupons.length ? whole : undefined;
    const shown = shownComparisons(drawn, { draws: simulatedDraws }, known);
    const differ = ({ first, second }: { first: string; second: string }) => centres[first] !== centres[second];
    const isShown = (pair: PairTally) => shown.some((one) => one.first === pair.first && one.second === pair.second);
    let [truly, found] = [0, 0];
    for (const pair of tally.pairs) {
      if (!differ(pair)) continue;
      truly++;
      pair.differing++;
      if (!isShown(pair)) continue;
      found++;
      pair.shown++;
    }
    tally.trials++;
    if (shown.some((one) => !differ(one))) tally.falselyShown++;
    if (truly === 0) continue;
    tally.differing++;
    tally.shareSum += found / truly;
    tally.squaredShareSum += (found / truly) ** 2;
    if (found === truly) tally.allShown++;
  }
  return tally;
}

/** No trials yet. */
export function emptyTally({ question }: SimulatedTrial): SimulationTally {
  return {
    trials: 0,
    pairs: countedPairs(question).map(({ first, second }) => ({ first, second, differing: 0, shown: 0 })),
    differing: 0,
    shareSum: 0,
    squaredShareSum: 0,
    allShown: 0,
    falselyShown: 0,
  };
}

function countedPairs({ order, family, control, treatments }: Question): ShownComparison[] {
  if (order !== undefined) return [orderEnds(order)];
  if (family === "control" && control !== null)
    return treatments.filter((one) => one !== control).map((first) => ({ first, second: control }));
  return treatments.flatMap((first, at) => treatments.slice(at + 1).map((second) => ({ first, second })));
}

/** Both together. */
export function addedTallies(one: SimulationTally, other: SimulationTally): SimulationTally {
  return {
    trials: one.trials + other.trials,
    pairs: one.pairs.map((pair, at) => ({
      ...pair,
      differing: pair.differing + (other.pairs[at]?.differing ?? 0),
      shown: pair.shown + (other.pairs[at]?.shown ?? 0),
    })),
    differing: one.differing + other.differing,
    shareSum: one.shareSum + other.shareSum,
    squaredShareSum: one.squaredShareSum + other.squaredShareSum,
    allShown: one.allShown + other.allShown,
    falselyShown: one.falselyShown + other.falselyShown,
  };
}

/** The counts as shares with their Monte Carlo errors; refuses a tally of no trials. */
export function simulatedChances(tally: SimulationTally): SimulatedChances {
  requireWhole("trials", tally.trials, 1);
  return {
    trials: tally.trials,
    each: meanShare(tally),
    all: tally.differing === 0 ? null : shareOf(tally.allShown, tally.differing),
    falselyShown: shareOf(tally.falselyShown, tally.trials),
    pairs: tally.pairs.map(({ first, second, differing, shown }) => ({
      first,
      second,
      shown: differing === 0 ? null : shareOf(shown, differing),
    })),
  };
}

function shareOf(count: number, trials: number): SimulatedShare {
  const share = count / trials;
  return { share, error: Math.sqrt((share * (1 - share)) / trials) };
}

/** Comparisons of one trial share its control, so the error goes by trials, not by comparisons. */
function meanShare({ differing, shareSum, squaredShareSum }: SimulationTally): SimulatedShare | null {
  if (differing === 0) return null;
  const share = shareSum / differing;
  return { share, error: Math.sqrt(Math.max(0, squaredShareSum / differing - share ** 2) / differing) };
}
