/** `check cases`: runs each reference case of each file through the method it names. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import * as z from "zod/mini";
import { InputError } from "../core/input-error.ts";
import { InputRefused } from "./exit.ts";
import { methodTable } from "./method-table.ts";

const number = z.number().check(z.minimum(0));
const tolerance = z.union([z.literal("exact"), z.object({ abs: z.optional(number), rel: z.optional(number) })]);
const referenceCase = z.object({
  id: z.string(),
  method: z.string(),
  input: z.record(z.string(), z.unknown()),
  expected: z.record(z.string(), z.unknown()),
  tolerance,
  source: z.string(),
  status: z.string(),
});
export type ReferenceCase = z.infer<typeof referenceCase>;
export type CaseOutcome = { id: string; file: string; failure: string | null };

export function checkCases(paths: string[], only: string[]): CaseOutcome[] {
  return paths.flatMap(filesAt).flatMap((file) =>
    readCases(file)
      .filter((one) => only.length === 0 || only.some((prefix) => one.method.startsWith(prefix)))
      .map((one) => ({ id: one.id, file, failure: failureOf(one) })),
  );
}

function filesAt(path: string): string[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new InputRefused(`${path} is not there; expected a JSON file of cases or a folder of them`);
  if (found.isFile()) return [path];
  return readdirSync(path, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() || entry.name.endsWith(".json"))
    .flatMap((entry) => filesAt(join(path, entry.name)));
}

function readCases(file: string): ReferenceCase[] {
  try {
    return z.array(referenceCase).parse(JSON.parse(readFileSync(file, "utf8")));
  } catch (error) {
    throw new InputRefused(`${file} is not an array of reference cases: ${(error as Error).message}`);
  }
}

/** Null when the case passes; otherwise what was got and what was expected. */
export function failureOf(one: ReferenceCase): string | null {
  const method = methodTable[one.method];
  if (!method) return `no method ${one.method}`;
  const expectsRefusal = one.expected.error === true;
  let result: unknown;
  try {
    result = method(withNonFinite(one.input));
  } catch (error) {
    if (expectsRefusal && error instanceof InputError && error.argument !== "") return null;
    return expectsRefusal
      ? `refused with ${String(error)}; expected an input error that names an argument`
      : `threw ${String(error)}`;
  }
  if (expectsRefusal) return `got ${JSON.stringify(result)}; expected a refusal`;
  return (
    Object.entries(one.expected)
      .map(([field, expected]) =>
        difference(field, (result as Record<string, unknown>)[field], expected, one.tolerance),
      )
      .find((found) => found !== null) ?? null
  );
}

/** JSON has no such numbers: the strings "NaN" and "Infinity" in a case stand for them. */
function withNonFinite(value: unknown): never {
  const turned = (inner: unknown): unknown => {
    if (inner === "NaN") return Number.NaN;
    if (inner === "Infinity") return Number.POSITIVE_INFINITY;
    if (inner === "-Infinity") return Number.NEGATIVE_INFINITY;
    if (Array.isArray(inner)) return inner.map(turned);
    if (inner !== null && typeof inner === "object")
      return Object.fromEntries(Object.entries(inner).map(([key, item]) => [key, turned(item)]));
    return inner;
  };
  // Cases are outside data: the method itself must refuse what is not of its shape.
  return turned(value) as never;
}

function difference(
  where: string,
  got: unknown,
  expected: unknown,
  allowed: ReferenceCase["tolerance"],
): string | null {
  if (typeof expected === "number" && typeof got === "number") {
    const slack = allowed === "exact" ? 0 : Math.max(allowed.abs ?? 0, (allowed.rel ?? 0) * Math.abs(expected));
    return Math.abs(got - expected) <= slack
      ? null
      : `${where}: got ${got}, expected ${expected}, tolerance ${JSON.stringify(allowed)}`;
  }
  if (Array.isArray(expected)) {
    if (!Array.isArray(got) || got.length !== expected.length)
      return `${where}: got ${JSON.stringify(got)}, expected a list of ${expected.length}`;
    for (const [at, item] of expected.entries()) {
      const found = difference(`${where}[${at}]`, got[at], item, allowed);
      if (found) return found;
    }
    return null;
  }
  if (expected !== null && typeof expected === "object") {
    if (got === null || typeof got !== "object") return `${where}: got ${JSON.stringify(got)}, expected an object`;
    for (const [key, item] of Object.entries(expected)) {
      const found = difference(`${where}.${key}`, (got as Record<string, unknown>)[key], item, allowed);
      if (found) return found;
    }
    return null;
  }
  return got === expected ? null : `${where}: got ${JSON.stringify(got)}, expected ${JSON.stringify(expected)}`;
}
