/**
 * Rearrangements of labels where the lot was more than free or within blocks: whole plots among whole plots and what is inside them
 * within them (split plot), and draws that were repeated until they looked well spread.
 *
 * Units   scores without unit; p as a share of the rearrangements that the lot could have given
 * Source  Fisher 1935: labels are rearranged as they were randomised; drawn ones (1 + count) / (1 + draws): Phipson and Smyth 2010
 * Status  computed
 */
import { InputError } from "../input-error.ts";
import { seededRandom } from "../numeric/random.ts";
import { allocationCount } from "./allocations.ts";
import {
  drawnRearrangements,
  enumeratedRearrangements,
  type LabelledScore,
  largestDifference,
  type RearrangementP,
  type RearrangementStatistic,
  reachesDifference,
} from "./rearrangement-test.ts";

/** `plot`: the batch it went through with others; "": it stands by itself. */
export type PlacedScore = LabelledScore & { plot: string };

/** Whether the lot could have given these labels, unit by unit. */
export type Acceptance = (labels: Uint8Array) => boolean;

/** Sums of the scores by group, and the group of each unit, of the rearrangement that is visited. */
type State = { sums: Float64Array; labels: Uint8Array };
/** One part of the layout, rearranged by itself. `each` visits all ways and leaves the sums as they were; `draw` adds one at random. */
type Part = {
  count: number;
  each: (state: State, visit: () => void) => void;
  draw: (state: State, random: () => number) => void;
};
/** A unit's place in the list, its score, the group that it has. */
type Slot = { at: number; score: number; group: number };

export type PlacedRearrangements = {
  /** Those that the layout has, refused ones too. */
  count: number;
  groupSizes: number[];
  observed: State;
  /** All accepted ones, or `draws` of them at random where there are too many to visit; says which. */
  visit: (ask: { seed: number; draws?: number }, visit: (state: State) => void) => "all" | "drawn";
};

/**
 * In each block, plots with equally many units exchange what they hold. Where plots of one block hold unequally many, their means are
 * exchanged and the units within a plot among themselves.
 */
export function placedRearrangements(
  units: readonly PlacedScore[],
  accepts: Acceptance = () => true,
): PlacedRearrangements {
  const groups = Math.max(...units.map((unit) => unit.group)) + 1;
  const slots = centredSlots(units);
  const parts = [...new Set(units.map((unit) => unit.block))].sort().flatMap((block) =>
    blockParts(
      slots.filter(({ at }) => units[at]!.block === block),
      units,
    ),
  );
  const count = parts.reduce((product, part) => product * part.count, 1);
  const observed: State = {
    sums: new Float64Array(groups),
    labels: Uint8Array.from(units, (unit) => unit.group),
  };
  for (const { score, group } of slots) observed.sums[group]! += score;
  if (!accepts(observed.labels))
    throw new InputError("spread", "these labels", "labels that the draw could have given");
  return {
    count,
    groupSizes: Array.from({ length: groups }, (_, group) => units.filter((unit) => unit.group === group).length),
    observed,
    visit: ({ seed, draws = drawnRearrangements }, visit) => {
      const state: State = { sums: new Float64Array(groups), labels: observed.labels.slice() };
      if (count <= enumeratedRearrangements) {
        visitAll(parts, state, () => accepts(state.labels) && visit(state));
        return "all";
      }
      const random = seededRandom(seed).next;
      for (let drawn = 0; drawn < draws; ) {
        state.sums.fill(0);
        for (const part of parts) part.draw(state, random);
        if (!accepts(state.labels)) continue;
        drawn++;
        visit(state);
      }
      return "drawn";
    },
  };
}

/** Scores less the mean of their block; tied ones give exact zeros. */
function centredSlots(units: readonly PlacedScore[]): Slot[] {
  const means = new Map<string, number>();
  for (const block of new Set(units.map((unit) => unit.block))) {
    const own = units.filter((unit) => unit.block === block).map((unit) => unit.score);
    means.set(block, own.reduce((sum, score) => sum + score, 0) / own.length);
  }
  return units.map(({ score, block, group }, at) => {
    const less = score - means.get(block)!;
    return { at, group, score: Math.abs(less) < 1e-12 ? 0 : less };
  });
}

function visitAll(parts: readonly Part[], state: State, visit: () => void, from = 0): void {
  const part = parts[from];
  if (part) part.each(state, () => visitAll(parts, state, visit, from + 1));
  else visit();
}

function blockParts(slots: readonly Slot[], units: readonly PlacedScore[]): Part[] {
  const plots = new Map<string, Slot[]>();
  for (const slot of slots) {
    const { plot } = units[slot.at]!;
    const key = plot === "" ? `alone ${slot.at}` : `plot ${plot}`;
    plots.set(key, [...(plots.get(key) ?? []), slot]);
  }
  const all = [...plots.values()];
  if (all.every((plot) => plot.length === 1)) return [within(slots)];
  if (new Set(all.map((plot) => plot.length)).size === 1) return [exchanged(all)];
  return [means(all), ...all.map((plot) => within(lessMean(plot)))];
}

const meanOf = (plot: readonly Slot[]): number => plot.reduce((sum, { score }) => sum + score, 0) / plot.length;

function lessMean(plot: readonly Slot[]): Slot[] {
  const mean = meanOf(plot);
  return plot.map((slot) => ({ ...slot, score: slot.score - mean }));
}

/** How often each group stands in these slots, by its number. */
function groupCounts(slots: readonly Slot[]): number[] {
  const counts = Array.from({ length: Math.max(...slots.map((slot) => slot.group)) + 1 }, () => 0);
  for (const { group } of slots) counts[group]!++;
  return counts;
}

const labelsIn = (counts: readonly number[]): number[] =>
  counts.flatMap((count, group) => Array.from({ length: count }, () => group));

/** Labels dealt freely over these units. */
function within(slots: readonly Slot[]): Part {
  const held = groupCounts(slots);
  const labels = labelsIn(held);
  return {
    count: allocationCount(held),
    each: (state, visit) => eachOrder(slots, [...held], state, visit, 0),
    draw: (state, random) => addLabels(slots, shuffled(labels, random), state),
  };
}

/** Visits every different way to give these units the labels that `room` still has, from a slot on. */
function eachOrder(slots: readonly Slot[], room: number[], state: State, visit: () => void, from: number): void {
  if (from === slots.length) {
    visit();
    return;
  }
  const { score, at } = slots[from]!;
  for (let label = 0; label < room.length; label++) {
    if (room[label] === 0) continue;
    const before = state.sums[label]!;
    room[label]!--;
    state.sums[label] = before + score;
    state.labels[at] = label;
    eachOrder(slots, room, state, visit, from + 1);
    state.sums[label] = before;
    room[label]!++;
  }
}

function addLabels(slots: readonly Slot[], labels: readonly number[], { sums, labels: into }: State): void {
  for (let at = 0; at < slots.length; at++) {
    const { score, at: unit } = slots[at]!;
    sums[labels[at]!]! += score;
    into[unit] = labels[at]!;
  }
}

function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const dealt = [...items];
  for (let at = dealt.length - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    const item = dealt[at]!;
    dealt[at] = dealt[other]!;
    dealt[other] = item;
  }
  return dealt;
}

/** What plots hold: the different contents, how many plots have each, and which plot has which. */
function contentsOf(plots: readonly Slot[][]): { kinds: number[][]; plotsOf: number[]; own: number[] } {
  const names = plots.map((plot) => groupCounts(plot).join());
  const different = [...new Set(names)];
  return {
    kinds: different.map((name) => groupCounts(plots[names.indexOf(name)]!)),
    plotsOf: different.map((name) => names.filter((one) => one === name).length),
    own: names.map((name) => different.indexOf(name)),
  };
}

/** Plots of equal size exchange what they hold, and each deals it anew over its units. */
function exchanged(plots: readonly Slot[][]): Part {
  const { kinds, plotsOf, own } = contentsOf(plots);
  const orders = own.reduce((product, kind) => product * allocationCount(kinds[kind]!), 1);
  const labels = kinds.map(labelsIn);
  return {
    count: allocationCount(plotsOf) * orders,
    each: (state, visit) =>
      eachContent(plots.length, [...plotsOf], visit, (at, kind, next) =>
        eachOrder(plots[at]!, [...kinds[kind]!], state, next, 0),
      ),
    draw: (state, random) => {
      for (const [at, kind] of shuffled(own, random).entries())
        addLabels(plots[at]!, shuffled(labels[kind]!, random), state);
    },
  };
}

/** Visits every different way to give the plots their contents; `give` does it for one plot and goes on. */
function eachContent(
  plots: number,
  room: number[],
  visit: () => void,
  give: (plot: number, kind: number, next: () => void) => void,
): void {
  const place = (plot: number): void => {
    if (plot === plots) {
      visit();
      return;
    }
    for (let kind = 0; kind < room.length; kind++) {
      if (room[kind] === 0) continue;
      room[kind]!--;
      give(plot, kind, () => place(plot + 1));
      room[kind]!++;
    }
  };
  place(0);
}

/** Means of the plots exchanged among them: each adds to the sums of the groups that a plot holds, as often as it holds them. */
function means(plots: readonly Slot[][]): Part {
  const { kinds, plotsOf, own } = contentsOf(plots);
  const levels = plots.map(meanOf);
  const add = ({ sums }: State, kind: number, mean: number) => {
    for (const [group, count] of kinds[kind]!.entries()) sums[group]! += count * mean;
  };
  return {
    count: allocationCount(plotsOf),
    each: (state, visit) =>
      eachContent(plots.length, [...plotsOf], visit, (at, kind, next) => {
        const before = state.sums.slice();
        add(state, kind, levels[at]!);
        next();
        state.sums.set(before);
      }),
    draw: (state, random) => {
      for (const [at, kind] of shuffled(own, random).entries()) add(state, kind, levels[at]!);
    },
  };
}

const slack = 1e-9;

/** Share of the accepted rearrangements with a statistic at least the observed one, as `rearrangementTest` has it. */
export function placedRearrangementTest(
  units: readonly PlacedScore[],
  {
    statistic,
    accepts,
    ...ask
  }: { statistic: RearrangementStatistic; accepts?: Acceptance | undefined; seed: number; draws?: number },
): RearrangementP {
  const set = placedRearrangements(units, accepts);
  const observed = largestDifference(set.observed.sums, set.groupSizes, statistic);
  const reaches = reachesDifference(set.groupSizes, statistic, observed - slack * (1 + observed));
  let [count, all] = [0, 0];
  const how = set.visit(ask, ({ sums }) => {
    all++;
    if (reaches(sums)) count++;
  });
  return how === "all"
    ? { p: count / all, rearrangements: all, drawn: null }
    : { p: (1 + count) / (1 + all), rearrangements: set.count, drawn: all };
}

/** Smallest p that layout, ties and refused rearrangements allow two groups; by the drawn ones where they are too many to visit. */
export function smallestPlacedP(
  units: readonly PlacedScore[],
  { accepts, ...ask }: { accepts?: Acceptance | undefined; seed: number; draws?: number },
): number {
  const set = placedRearrangements(units, accepts);
  let [farthest, count, all] = [0, 0, 0];
  const how = set.visit(ask, ({ sums }) => {
    all++;
    // The sums of two groups add up to 0: either says how far apart they are.
    const one = Math.abs(sums[0]!);
    if (one > farthest + slack * (1 + farthest)) [farthest, count] = [one, 0];
    if (one >= farthest - slack * (1 + farthest)) count++;
  });
  return how === "all" ? count / all : (1 + count) / (1 + all);
}

/** Smallest p without any ties, from the number of accepted rearrangements alone; of too many to visit only that it is small. */
export function smallestUntiedPlacedP(units: readonly PlacedScore[], accepts: Acceptance | undefined): number {
  const set = placedRearrangements(units, accepts);
  if (set.count > enumeratedRearrangements) return 2 / enumeratedRearrangements;
  let all = 0;
  set.visit({ seed: 1 }, () => all++);
  return Math.min(1, 2 / all);
}
