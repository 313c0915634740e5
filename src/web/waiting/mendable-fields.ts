/** The plain fields of an observation that was refused, as text to be mended; lists and pictures stay as they are. */
import { type NewObservation, newObservation } from "../../api/observation.ts";
import { typedNumber } from "../parts/quantity.ts";
import { fieldLabel } from "./field-label.ts";

export type MendableField = { path: readonly string[]; label: string; text: string; isNumber: boolean };

const fixed = ["kind", "measurement", "scale", "how"];

export function mendableFields({ body }: NewObservation): MendableField[] {
  return fieldsBelow(body, []);
}

function fieldsBelow(value: object, path: readonly string[]): MendableField[] {
  return Object.entries(value).flatMap(([name, inner]: [string, unknown]) => {
    if (fixed.includes(name)) return [];
    const here = [...path, name];
    const label = fieldLabel(here);
    if (typeof inner === "string") return [{ path: here, label, text: inner, isNumber: false }];
    if (typeof inner === "number") return [{ path: here, label, text: String(inner), isNumber: true }];
    return typeof inner === "object" && inner !== null && !Array.isArray(inner) ? fieldsBelow(inner, here) : [];
  });
}

/** Null: with these texts it is no observation that the shop knows. */
export function mended(observation: NewObservation, fields: readonly MendableField[]): NewObservation | null {
  const copy: unknown = JSON.parse(JSON.stringify(observation));
  for (const { path, text, isNumber } of fields) put(copy, ["body", ...path], isNumber ? typedNumber(text) : text);
  const read = newObservation.safeParse(copy);
  return read.success ? read.data : null;
}

function put(into: unknown, [name, ...rest]: readonly string[], value: unknown): void {
  if (typeof into !== "object" || into === null || name === undefined) return;
  if (rest.length === 0) Reflect.set(into, name, value);
  else put(Reflect.get(into, name), rest, value);
}
