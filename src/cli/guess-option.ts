/** What is expected of a plan's responses: a bare number for the first question, "response=number" for one by name. */
import { type DeclaredQuestion, responseName } from "../core/trial/declared-question.ts";
import { sameName } from "../core/trial/plain-table.ts";
import { WrongUsage } from "./exit.ts";
import { numberOption } from "./table-options.ts";

/** `response` null: the first question, and others about the same response. */
export type Guess = { response: string | null; number: number };

export function guessOption(typed: string, before: Guess[] = []): Guess[] {
  const at = typed.lastIndexOf("=");
  const response = at < 0 ? null : typed.slice(0, at).trim();
  return [...before, { response, number: numberOption(typed.slice(at + 1)) }];
}

/** Refuses a name that no question has. null: nothing was said about this one. */
export function guessFor(
  guesses: readonly Guess[],
  questions: readonly DeclaredQuestion[],
): (declared: DeclaredQuestion) => number | null {
  const names = questions.map(responseName);
  for (const { response } of guesses)
    if (response !== null && !names.some((name) => sameName(name, response)))
      throw new WrongUsage(`The draft asks nothing about "${response}"; it asks about ${names.join(", ")}.`);
  return (declared) => {
    const name = responseName(declared);
    const own = guesses.find(({ response }) => sameName(response ?? names[0] ?? "", name));
    return own?.number ?? null;
  };
}
