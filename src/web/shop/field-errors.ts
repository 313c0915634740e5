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
  return said.length > 0 ? capital(said.map((one) => one.detail).join(" ")) : null;
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
