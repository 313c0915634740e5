/**
 * Who takes part in a family. A treatment without any chance by the layout alone is taken out before a response is read: its p near 1
 * would sink every set of treatments that holds it.
 */
import { smallestUntiedPlacedP } from "../statistics/placed-rearrangements.ts";
import { smallestUntiedP } from "../statistics/rearrangement-test.ts";
import type { Question } from "./question.ts";
import { acceptedBySpread } from "./spread-acceptance.ts";
import { type TrialLayout, type Unit, unitsOfReplication } from "./units-of-replication.ts";

/** Above it an exact test can say nothing, whatever happens. */
export const largestTellingP = 0.2;
/** Slack for a share that rounding has moved. */
export const shareSlack = 1e-9;
/** Below so many degrees of freedom the mean of values says nothing, or cannot be "shown". */
export const errorDfFor = { anything: 2, shown: 6 } as const;

export type Family = { members: string[]; takenOut: string[] };

export type HopelessPair = (first: string, second: string) => boolean;

/** Degrees of freedom of the scatter that judges a pair. */
export type ErrorDf = (first: string, second: string) => number;

/** By numbers of units and blocks; `errorDf` for measured values, whose test borrows its scatter from the whole trial. */
export function hopelessByLayout(question: Question, layout: TrialLayout, errorDf: ErrorDf | null): HopelessPair {
  return (first, second) => {
    const units = pairUnits(question, layout, first, second);
    if (units.some((own) => own.length <= 1)) return true;
    if (layout.pair(first, second).batch?.case === "each has one") return true;
    if (errorDf !== null) return errorDf(first, second) < errorDfFor.anything;
    return smallestLayoutP(question, units) > largestTellingP + shareSlack;
  };
}

/** Smallest p that the lot of the two allows, without any ties. */
export function smallestLayoutP(question: Question, units: readonly [readonly Unit[], readonly Unit[]]): number {
  const both = units.flat();
  if (question.spread === undefined) return smallestUntiedP(sizesByBlock(units));
  const treatments = units.map((own) => own[0]?.treatment ?? "");
  const placed = both.map(({ treatment, block, plot }, score) => {
    return { score, group: treatments.indexOf(treatment), block, plot };
  });
  return smallestUntiedPlacedP(placed, acceptedBySpread(question, both, treatments));
}

/** Units of the two for this pair alone. */
export function pairUnits(question: Question, layout: TrialLayout, first: string, second: string): [Unit[], Unit[]] {
  const units = unitsOfReplication(question, layout, { treatments: [first, second], pairs: [[first, second]] });
  return [units.filter((unit) => unit.treatment === first), units.filter((unit) => unit.treatment === second)];
}

function sizesByBlock([first, second]: readonly [readonly Unit[], readonly Unit[]]): [number, number][] {
  const blocks = new Set([...first, ...second].map((unit) => unit.block));
  return [...blocks].map((block) => [
    first.filter((unit) => unit.block === block).length,
    second.filter((unit) => unit.block === block).length,
  ]);
}

/** Treatments with a chance against the control, and those without. */
export function familyAgainstControl(treatments: readonly string[], control: string, hopeless: HopelessPair): Family {
  const others = treatments.filter((treatment) => treatment !== control);
  return {
    members: others.filter((treatment) => !hopeless(treatment, control)),
    takenOut: others.filter((treatment) => hopeless(treatment, control)),
  };
}

/** The treatment with the most hopeless pairs goes first, among equals the later one in the plan, until no such pair is left. */
export function familyOfPairs(treatments: readonly string[], hopeless: HopelessPair): Family {
  let members = [...treatments];
  const takenOut: string[] = [];
  for (;;) {
    const counts = members.map((one) => members.filter((other) => other !== one && hopeless(one, other)).length);
    const most = Math.max(0, ...counts);
    if (most === 0) return { members, takenOut };
    const leaving = members[counts.lastIndexOf(most)]!;
    takenOut.push(leaving);
    members = members.filter((one) => one !== leaving);
  }
}
