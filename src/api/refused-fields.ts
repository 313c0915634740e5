/** What a schema refused, in the words of the house: where it stands, what was given, what was expected. */
import * as z from "zod/mini";
import { InputError } from "../core/input-error.ts";

// Without a language every message of a rarer check reads "Invalid input".
z.config(z.locales.en());

type Issue = z.core.$ZodIssue;
export type RefusedField = { pointer: string; detail: string };

/** One line for each field that was refused, with its JSON pointer into `value`. */
export function refusedFields(issues: readonly Issue[], value: unknown): RefusedField[] {
  return issues.flatMap(plainIssues).map((issue) => {
    const path = issue.code === "unrecognized_keys" ? [...issue.path, issue.keys[0] ?? ""] : issue.path;
    const { message } = new InputError(dotted(path), valueAt(value, path), expectation(issue));
    return { pointer: pointerOf(path), detail: message };
  });
}

export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** Of several forms that a value may have, the one that it misses by least is what the writer meant. */
function plainIssues(issue: Issue): Issue[] {
  if (issue.code !== "invalid_union" || issue.errors.length === 0) return [issue];
  const [nearest] = issue.errors
    .map((branch) => branch.flatMap((inner) => plainIssues({ ...inner, path: [...issue.path, ...inner.path] })))
    .sort((a, b) => a.length - b.length);
  return nearest ?? [issue];
}

function dotted(path: readonly PropertyKey[]): string {
  const text = path.map((key) => (typeof key === "number" ? `[${key}]` : `.${String(key)}`)).join("");
  return text.replace(/^\./, "") || "the whole of it";
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) => (typeof inner === "object" && inner !== null ? Reflect.get(inner, key) : undefined),
    value,
  );
}

const formats: Record<string, string> = {
  date: "a date as 2026-05-31",
  datetime: "a date and time with its offset, as 2026-05-31T08:30:00+02:00",
  uuid: "a UUID",
};
const types: Record<string, string> = { array: "a list", int: "a whole number", object: "an object", string: "text" };

function expectation(issue: Issue): string {
  if (issue.code === "too_big") return `${issue.inclusive ? "at most" : "less than"} ${amount(issue, issue.maximum)}`;
  if (issue.code === "too_small")
    return `${issue.inclusive ? "at least" : "more than"} ${amount(issue, issue.minimum)}`;
  if (issue.code === "invalid_format")
    return formats[issue.format] ?? `text of the form ${issue.pattern ?? issue.format}`;
  if (issue.code === "invalid_value") return `one of ${issue.values.map((one) => JSON.stringify(one)).join(", ")}`;
  if (issue.code === "invalid_type") return types[issue.expected] ?? `a ${issue.expected}`;
  if (issue.code === "unrecognized_keys") return "no field of that name";
  if (issue.code === "invalid_union" && "options" in issue && Array.isArray(issue.options))
    return `one of ${issue.options.map((one) => JSON.stringify(one)).join(", ")}`;
  return issue.message;
}

function amount({ origin }: { origin: string }, limit: number | bigint): string {
  if (origin === "string") return `${limit} ${limit === 1 ? "character" : "characters"}`;
  if (origin === "array") return `${limit} ${limit === 1 ? "entry" : "entries"}`;
  return String(limit);
}
