/** p of every comparison by rearranging the units, adjusted by closed testing. For times, areas, classes, yes and no. */
import { holmAdjusted } from "../statistics/holm-adjusted.ts";
import type { RearrangementP } from "../statistics/rearrangement-test.ts";
import { type AdjustedP, closedAgainstControl, closedAllPairs, type MemberSet } from "./closed-testing.ts";
import type { Family } from "./comparable-treatments.ts";
import { type ComparisonRow, type ComparisonRows, controlOf } from "./comparison-rows.ts";
import type { Question } from "./question.ts";
import { type Drawing, type SetTest, setTest, smallestPairP } from "./rearranged-sets.ts";
import type { TrialLayout } from "./units-of-replication.ts";

export type TestedRow = ComparisonRow & {
  p: number;
  pAdjusted: number | null;
  pAdjustedIsLowerBound: boolean;
  /** null: the p does not come from rearranging units. */
  pMin: number | null;
  /** The p stands at the least that so many draws can give; null: not drawn. */
  drawnFloor: number | null;
  method: string;
  /** Reasons to trust the p less. */
  doubts: string[];
};

export type Tested = { rows: TestedRow[]; overall: { p: number; method: string } | null };

/** Beyond them the sets are too many, and Holm on the pairwise p stands in. */
export const mostTreatments = { control: 9, pairs: 8 } as const;

/** Shares of rearrangements as p, for every comparison of the plan and for all treatments together. */
export function exactTests(question: Question, layout: TrialLayout, plan: ComparisonRows, drawing: Drawing): Tested {
  const test = setTest(question, layout, drawing);
  const pairTests = new Map(plan.rows.map((row) => [row, test([row.first, row.second], "pairs")]));
  const adjusted = new Map<ComparisonRow, AdjustedP>([
    ...adjustedFamily(question, plan, test, pairTests),
    ...(plan.secondStep ? adjustedPairs(rowsIn(plan, "second step"), plan.secondStep, test, pairTests) : []),
  ]);
  const rows = plan.rows.map((row) => {
    const pair = pairTests.get(row)!;
    const own = adjusted.get(row) ?? null;
    return {
      ...row,
      p: pair.p,
      pAdjusted: own?.p ?? exploratoryP(row, pair.p, question),
      pAdjustedIsLowerBound: own?.lowerBound ?? false,
      pMin: smallestPairP(question, layout, row.first, row.second),
      drawnFloor: pair.drawn === null ? null : 1 / (1 + pair.drawn),
      method: [pairMethod(question, pair), own === null ? null : adjustmentMethod(question, plan, row)]
        .filter((part) => part !== null)
        .join("; "),
      doubts: [],
    };
  });
  return { rows, overall: overallTest(question, plan.family, test) };
}

function rowsIn({ rows }: ComparisonRows, step: ComparisonRow["step"]): ComparisonRow[] {
  return rows.filter((row) => row.step === step && row.standing === "in");
}

type PairTests = ReadonlyMap<ComparisonRow, RearrangementP>;

function adjustedFamily(question: Question, plan: ComparisonRows, test: SetTest, pairTests: PairTests) {
  const rows = rowsIn(plan, "family");
  if (question.family === "pairs") return adjustedPairs(rows, plan.family, test, pairTests);
  if (question.treatments.length > mostTreatments.control) return holmOf(rows, pairTests);
  const control = controlOf(question);
  const { members } = plan.family;
  const adjusted = closedAgainstControl(members.length, (set) => {
    const inside = membersOf(set, members);
    const single = inside.length === 1 ? rows.find((row) => row.first === inside[0]) : undefined;
    return single ? pairTests.get(single)!.p : test([control, ...inside], "control").p;
  });
  return rows.map((row): [ComparisonRow, AdjustedP] => [row, adjusted[members.indexOf(row.first)]!]);
}

function adjustedPairs(rows: readonly ComparisonRow[], { members }: Family, test: SetTest, pairTests: PairTests) {
  if (rows.length === 0) return [];
  if (members.length > mostTreatments.pairs) return holmOf(rows, pairTests);
  const adjusted = closedAllPairs(members.length, (set) => {
    const inside = membersOf(set, members);
    const pair =
      inside.length === 2 ? rows.find((row) => inside.includes(row.first) && inside.includes(row.second)) : undefined;
    return pair ? pairTests.get(pair)!.p : test(inside, "pairs").p;
  });
  return rows.map((row): [ComparisonRow, AdjustedP] => [
    row,
    adjusted(members.indexOf(row.first), members.indexOf(row.second)),
  ]);
}

function holmOf(rows: readonly ComparisonRow[], pairTests: PairTests): [ComparisonRow, AdjustedP][] {
  const adjusted = holmAdjusted(rows.map((row) => pairTests.get(row)!.p));
  return rows.map((row, at) => [row, { p: adjusted[at]!, lowerBound: false }]);
}

/** The names behind a set's bits. */
export function membersOf(set: MemberSet, members: readonly string[]): string[] {
  return members.filter((_, member) => set & (1 << member));
}

/** A pair that the layout took out of the family for the sake of others: times the number of pairs that were declared. */
function exploratoryP(row: ComparisonRow, p: number, { treatments }: Question): number | null {
  if (row.standing !== "exploratory") return null;
  return Math.min(1, (p * treatments.length * (treatments.length - 1)) / 2);
}

function overallTest(question: Question, { members }: Family, test: SetTest): Tested["overall"] {
  const all = question.family === "control" && members.length > 0 ? [controlOf(question), ...members] : members;
  if (all.length < 2) return null;
  const tested = test(all, "pairs");
  return {
    p: tested.p,
    method: `largest difference of any two of ${all.length} treatments, ${counted(tested, question)}`,
  };
}

const scoreNames = {
  time: "log-rank scores of the looks",
  area: "mid-ranks",
  ordinal: "mid-ranks",
  binary: "shares",
  continuous: "means",
} as const;

function pairMethod(question: Question, tested: RearrangementP): string {
  return `exact rearrangement test, ${scoreNames[question.kind]}, ${counted(tested, question)}`;
}

function counted({ p, rearrangements, drawn }: RearrangementP, { seed }: Question): string {
  if (drawn === null) return `all ${rearrangements} rearrangements counted`;
  const error = Math.sqrt((p * (1 - p)) / drawn);
  return `${drawn} random rearrangements, seed ${seed}, Monte Carlo error ${error.toPrecision(1)}`;
}

function adjustmentMethod(question: Question, plan: ComparisonRows, row: ComparisonRow): string {
  const pairs = question.family === "pairs" || row.step === "second step";
  const members = row.step === "family" ? plan.family.members : plan.secondStep!.members;
  const tooMany = pairs ? members.length > mostTreatments.pairs : question.treatments.length > mostTreatments.control;
  if (tooMany) return "Holm on the pairwise p, the treatments being too many for closed testing";
  return pairs ? "closed testing of all pairs" : "closed testing against the control";
}
