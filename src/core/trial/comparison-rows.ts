/** Which comparisons an answer holds, in their order, and which of them the layout lets take part in the family. */
import { InputError } from "../input-error.ts";
import { type Family, familyAgainstControl, familyOfPairs, type HopelessPair } from "./comparable-treatments.ts";
import type { Question } from "./question.ts";

/**
 * "family": adjusted with the declared family. "second step": a pair of finishes beside a family against control.
 * `standing`: "in": takes part. "out": no chance by the layout. "exploratory": one of the two was taken out because of others.
 */
export type ComparisonRow = {
  first: string;
  second: string;
  step: "family" | "second step";
  standing: "in" | "out" | "exploratory";
};

export type ComparisonRows = {
  rows: ComparisonRow[];
  family: Family;
  /** The finishes among themselves; null when the family is "all pairs". */
  secondStep: Family | null;
};

/** Each comparison of the answer in its order, with its standing by the layout. */
export function comparisonRows(question: Question, hopeless: HopelessPair): ComparisonRows {
  const { treatments } = question;
  if (question.family === "pairs") {
    const family = familyOfPairs(treatments, hopeless);
    return { rows: pairRows(treatments, family, hopeless, "family"), family, secondStep: null };
  }
  const control = controlOf(question);
  const others = treatments.filter((treatment) => treatment !== control);
  const family = familyAgainstControl(treatments, control, hopeless);
  const secondStep = familyOfPairs(others, hopeless);
  const againstControl = others.map(
    (first): ComparisonRow => ({
      first,
      second: control,
      step: "family",
      standing: family.members.includes(first) ? "in" : "out",
    }),
  );
  return { rows: [...againstControl, ...pairRows(others, secondStep, hopeless, "second step")], family, secondStep };
}

/** The control's name; refused when it is none of the treatments compared. */
export function controlOf({ control, treatments }: Question): string {
  if (control === null || !treatments.includes(control))
    throw new InputError("control", control, `one of the treatments compared: ${treatments.join(", ")}`);
  return control;
}

function pairRows(
  treatments: readonly string[],
  family: Family,
  hopeless: HopelessPair,
  step: ComparisonRow["step"],
): ComparisonRow[] {
  return treatments.flatMap((first, at) =>
    treatments.slice(at + 1).map((second): ComparisonRow => {
      const both = family.members.includes(first) && family.members.includes(second);
      return { first, second, step, standing: hopeless(first, second) ? "out" : both ? "in" : "exploratory" };
    }),
  );
}
