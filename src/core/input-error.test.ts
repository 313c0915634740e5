import { describe, expect, test } from "vitest";
import {
  InputError,
  requireFinite,
  requireFraction,
  requireList,
  requireNotNegative,
  requireOneOf,
  requirePercent,
  requirePositive,
  requireWhole,
} from "./input-error.ts";

/** What each refuses beside what it lets pass: on the limit, a hair beyond, and what is no number at all. */
const noNumbers = [Number.NaN, "5", null, undefined];
const checks: [string, (value: unknown) => void, unknown[], unknown[]][] = [
  ["finite", (value) => requireFinite("x", value), [0, -1e300], [Number.POSITIVE_INFINITY, ...noNumbers]],
  ["above 0", (value) => requirePositive("x", value), [5e-324], [0, -1, Number.POSITIVE_INFINITY, ...noNumbers]],
  ["0 or more", (value) => requireNotNegative("x", value), [0, -0], [-5e-324, Number.POSITIVE_INFINITY, ...noNumbers]],
  ["a percentage", (value) => requirePercent("x", value), [0, 100], [-1e-9, 100.0000001, ...noNumbers]],
  ["a fraction", (value) => requireFraction("x", value), [1e-9, 0.999], [0, 1, ...noNumbers]],
  ["whole", (value) => requireWhole("x", value, 2), [2, 2 ** 53 - 1], [1, 2.5, 2 ** 53, ...noNumbers]],
  ["one of", (value) => requireOneOf("x", value, ["a", "b"]), ["a", "b"], ["A", "", ...noNumbers]],
  ["a list", (value) => requireList("x", value, 2), [[1, 2]], [[1], "ab", ...noNumbers]],
];

describe.each(checks)("%s", (_what, check, passes, refused) => {
  test.each(passes.map((value) => [value]))("%j passes", (value) => expect(() => check(value)).not.toThrow());
  test.each(refused.map((value) => [value]))("%s is refused by its name", (value) => {
    expect(() => check(value)).toThrow(InputError);
    expect(() => check(value)).toThrow(/^x is .+; expected /);
  });
});

test.each([
  ["what is left out is missing", undefined, "x is missing; expected a number"],
  ["a number as it was given", 0.1, "x is 0.1; expected a number"],
  ["a text in quotes, so that 5 and “5” differ", "5", 'x is "5"; expected a number'],
  ["no more of a long text than fits beside a field", "a".repeat(200), `x is "${"a".repeat(76)}...; expected a number`],
])("the message says %s", (_what, value, message) => {
  const refusal = new InputError("x", value, "a number");
  expect([refusal.message, refusal.argument]).toEqual([message, "x"]);
});
