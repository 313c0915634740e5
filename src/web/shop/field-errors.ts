/** Which refused field of a request an error speaks of, so that its words can stand beside that field. */
import { capital } from "../../report/capital.ts";
import { Refused } from "./ask.ts";

export type FieldError = { pointer: string; detail: string };

export function fieldErrors(error: unknown): FieldError[] {
  return error instanceof Refused ? (error.problem.errors ?? []) : [];
}

/** What was said of one field or of anything inside it: "/draft/blocks", "/draft/treatments/2". */
export function errorAt(error: unknown, pointer: string): string | null {
  const said = fieldErrors(error).filter((one) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`));
  const words = said.map((one) => (one.pointer === pointer ? withoutName(one) : one.detail));
  return words.length > 0 ? capital(words.join(" ")) : null;
}

/** "cardRulerMm is 120; expected at most 115" beside that field: what the program calls it tells nobody anything. */
function withoutName({ pointer, detail }: FieldError): string {
  const name = pointer
    .slice(1)
    .replace(/\/(\d+)/g, "[$1]")
    .replaceAll("/", ".");
  return detail.startsWith(`${name} is `) ? detail.slice(`${name} is `.length) : detail;
}

/** What is left to say at the form's foot, after the fields that show their own. */
export function otherErrors(error: unknown, shownPointers: readonly string[]): string[] {
  if (error === null || error === undefined) return [];
  const fields = fieldErrors(error);
  if (fields.length === 0) return [capital(error instanceof Error ? error.message : String(error))];
  const shown = (one: FieldError) =>
    shownPointers.some((pointer) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`));
  return fields.filter((one) => !shown(one)).map((one) => `${one.pointer.replace(/^\//, "")}: ${one.detail}`);
}
