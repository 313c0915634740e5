/**
 * Which comparisons reach the level of "shown" by the exact tests: the same tests and the same closed testing as in the answer, asked
 * no further than this one word needs. A simulated plan asks it thousands of times.
 */
import { holmAdjusted } from "../statistics/holm-adjusted.ts";
import { type MemberSet, passingAgainstControl, passingPairs } from "./closed-testing.ts";
import type { Family } from "./comparable-treatments.ts";
import { type ComparisonRow, type ComparisonRows, controlOf } from "./comparison-rows.ts";
import { membersOf, mostTreatments } from "./exact-tests.ts";
import type { Question } from "./question.ts";
import { type Drawing, type SetTest, setTest } from "./rearranged-sets.ts";
import type { TrialLayout } from "./units-of-replication.ts";
import { reaches, verdictLevels } from "./verdict.ts";

const told = (p: number) => reaches(p, verdictLevels.shown);

/** Rows that take part in the family and have an adjusted p at the level; of the second step only behind an open gate. */
export function rowsToldApart(
  question: Question,
  layout: TrialLayout,
  plan: ComparisonRows,
  { draws }: Pick<Drawing, "draws">,
): ComparisonRow[] {
  const test = setTest(question, layout, { draws, stopAbove: verdictLevels.shown });
  const inFamily = plan.rows.filter((row) => row.step === "family" && row.standing === "in");
  if (question.family === "pairs") return pairsTold(inFamily, plan.family, test);
  const family = againstControlTold(question, inFamily, plan.family, test);
  const gateOpen = family.length > 0 && family.length === inFamily.length;
  if (!gateOpen || plan.secondStep === null) return family;
  const among = plan.rows.filter((row) => row.step === "second step" && row.standing === "in");
  return [...family, ...pairsTold(among, plan.secondStep, test)];
}

function againstControlTold(
  question: Question,
  rows: readonly ComparisonRow[],
  { members }: Family,
  test: SetTest,
): ComparisonRow[] {
  if (rows.length === 0) return [];
  const control = controlOf(question);
  if (question.treatments.length > mostTreatments.control) return holmTold(rows, test);
  const passing = passingAgainstControl(members.length, (set) => {
    const inside = membersOf(set, members);
    const [single] = inside;
    return told(
      inside.length === 1 && single !== undefined
        ? test([single, control], "pairs").p
        : test([control, ...inside], "control").p,
    );
  });
  return rows.filter((row) => passing[members.indexOf(row.first)]);
}

function pairsTold(rows: readonly ComparisonRow[], { members }: Family, test: SetTest) {
  if (rows.length === 0) return [];
  if (members.length > mostTreatments.pairs) return holmTold(rows, test);
  const passing = passingPairs(members.length, {
    pOf: (set: MemberSet) => test(membersOf(set, members), "pairs").p,
    passes: told,
  });
  return rows.filter((row) => passing(members.indexOf(row.first), members.indexOf(row.second)));
}

/** A stopped p is above the level already: Holm keeps it there. */
function holmTold(rows: readonly ComparisonRow[], test: SetTest): ComparisonRow[] {
  const adjusted = holmAdjusted(rows.map((row) => test([row.first, row.second], "pairs").p));
  return rows.filter((_, at) => told(adjusted[at]!));
}
