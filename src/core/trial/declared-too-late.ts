/** Which questions were declared, or declared otherwise, when results were known already: those are exploratory. */
import type { DeclaredQuestion, DeclaredResponse } from "./declared-question.ts";
import { sameValue } from "./same-value.ts";

/** Observations that show how coupons did. */
export const resultKinds = [
  "look",
  "first rust",
  "tape test",
  "wear test",
  "value",
  "weighing",
  "finish colour",
] as const;
export type ResultKind = (typeof resultKinds)[number];

/** What of a plan a question rests on. Lengths in mm. */
export type Declaration = {
  questions: readonly DeclaredQuestion[];
  couponSize: { lengthMm: number; widthMm: number; thicknessMm: number };
  edgeBandMm: number;
  rustThresholdPercent: number;
  lookDays: readonly number[];
};
/** `seen`: the kinds of results that had been written down before it. */
export type WordedDeclaration = { declaration: Declaration; seen: readonly ResultKind[] };

/**
 * The questions of the newest wording. Exploratory is one that was asked, or changed, after its results could be known, and it
 * stays so. Look days that were only added change nothing; the user's own words may change at any time.
 */
export function markedQuestions(wordings: readonly WordedDeclaration[]): DeclaredQuestion[] {
  let marked: DeclaredQuestion[] = [];
  for (const [at, { declaration, seen }] of wordings.entries()) {
    const before = wordings[at - 1]?.declaration;
    const formerly = marked;
    marked = pairedQuestions(before?.questions ?? [], declaration.questions).flatMap(({ before: earlier, after }) => {
      if (after === null) return [];
      const former = earlier === null ? undefined : formerly[before?.questions.indexOf(earlier) ?? -1];
      const changed = earlier === null || !sameQuestion(earlier, after) || restsOnChange(after, before, declaration);
      const late = before !== undefined && changed && isKnown(after.response, seen);
      return [late || former?.exploratory ? { ...after, exploratory: true as const } : after];
    });
  }
  return marked;
}

export type QuestionPair = { before: DeclaredQuestion | null; after: DeclaredQuestion | null };

/**
 * Each question of the later wording, in its order, with the earlier one that it goes back to; at the end those that are no longer asked.
 * An equal one first, then the next of the same response.
 */
export function pairedQuestions(
  before: readonly DeclaredQuestion[],
  after: readonly DeclaredQuestion[],
): QuestionPair[] {
  const free = new Set(before);
  const take = (fits: (one: DeclaredQuestion) => boolean) => {
    const found = [...free].find(fits) ?? null;
    if (found) free.delete(found);
    return found;
  };
  const equal = after.map((one) => take((other) => sameQuestion(one, other)));
  const pairs = after.map((one, at) => ({
    before: equal[at] ?? take((other) => sameResponse(one, other)),
    after: one,
  }));
  return [...pairs, ...[...free].map((one) => ({ before: one, after: null }))];
}

/** Whether it was declared too late is no part of what it asks. */
function sameQuestion(one: DeclaredQuestion, other: DeclaredQuestion): boolean {
  return sameValue({ ...one, exploratory: undefined }, { ...other, exploratory: undefined });
}

function sameResponse(one: DeclaredQuestion, other: DeclaredQuestion): boolean {
  if (one.response === "value" && other.response === "value") return one.name === other.name;
  return one.response === other.response;
}

const readFromLooks: readonly DeclaredResponse[] = ["time to first rust", "rusted area", "grade"];

const ownResults: Record<DeclaredResponse, readonly ResultKind[]> = {
  "time to first rust": ["first rust"],
  "rusted area": [],
  grade: [],
  "tape class": ["tape test"],
  "strokes to breakthrough": ["wear test"],
  value: ["value", "weighing", "finish colour"],
};

/** After a look no question is declared beforehand any more; a test tells only of its own response. */
const isKnown = (response: DeclaredResponse, seen: readonly ResultKind[]): boolean =>
  seen.includes("look") || ownResults[response].some((kind) => seen.includes(kind));

/** What a look reads, and when there is one, bears on each question that is read from looks. */
function restsOnChange({ response }: DeclaredQuestion, before: Declaration | undefined, after: Declaration): boolean {
  if (before === undefined || !readFromLooks.includes(response)) return false;
  return (
    before.rustThresholdPercent !== after.rustThresholdPercent ||
    before.edgeBandMm !== after.edgeBandMm ||
    !sameValue(before.couponSize, after.couponSize) ||
    before.lookDays.some((day) => !after.lookDays.includes(day))
  );
}
