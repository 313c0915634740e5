/**
 * What is expected of a plan's questions: a bare number is for the first, "response=number" for the one about that response, and
 * "question 2=number" for one by its place, which is the only way where several are about the same response.
 */
import { type DeclaredQuestion, responseName } from "../core/trial/declared-question.ts";
import { familyWords } from "../core/trial/family-words.ts";
import { sameName } from "../core/trial/plain-table.ts";
import { WrongUsage } from "./exit.ts";
import { numberOption } from "./table-options.ts";

/** `of` null: the first question. */
export type Guess = { of: string | null; number: number };

export function guessOption(typed: string, before: Guess[] = []): Guess[] {
  const at = typed.lastIndexOf("=");
  const of = at < 0 ? null : typed.slice(0, at).trim();
  return [...before, { of, number: numberOption(typed.slice(at + 1)) }];
}

/** Refuses a name that no question has, or that several have. null: nothing was said about this one. */
export function guessFor(
  guesses: readonly Guess[],
  questions: readonly DeclaredQuestion[],
): (declared: DeclaredQuestion) => number | null {
  const said = new Map(guesses.map(({ of, number }) => [questionNamed(of, questions), number]));
  return (declared) => said.get(questions.indexOf(declared)) ?? null;
}

/** What to type for a question: its response, or its place where others share that. */
export function guessName(declared: DeclaredQuestion, questions: readonly DeclaredQuestion[]): string {
  const name = responseName(declared);
  const others = questions.filter((one) => sameName(responseName(one), name));
  return others.length > 1 ? placeName(questions.indexOf(declared)) : name;
}

const placeName = (at: number): string => `question ${at + 1}`;

function questionNamed(name: string | null, questions: readonly DeclaredQuestion[]): number {
  if (name === null) return 0;
  const named = questions.flatMap((one, at) => (sameName(responseName(one), name) ? [at] : []));
  const [only] = named;
  if (named.length === 1 && only !== undefined) return only;
  const placed = questions.findIndex((_, at) => sameName(placeName(at), name));
  if (named.length === 0 && placed >= 0) return placed;
  const choices = (places: readonly number[]) =>
    places.map((at) => `"${placeName(at)}=NUMBER" (${titleOf(questions[at])})`).join(", ");
  if (named.length > 1)
    throw new WrongUsage(`${named.length} questions are about "${name}"; say which: ${choices(named)}.`);
  throw new WrongUsage(`The draft has no question about "${name}"; it has ${choices([...questions.keys()])}.`);
}

const titleOf = (declared: DeclaredQuestion | undefined): string =>
  declared === undefined ? "" : `${responseName(declared)}, ${familyWords(declared)}`;
