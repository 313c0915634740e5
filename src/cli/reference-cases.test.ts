/** Every case under reference/ whose method is built; one test per file. A method not in the table yet is passed over. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkCases } from "./check-cases.ts";

const reference = join(import.meta.dirname, "..", "..", "reference");
const files = readdirSync(reference, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".json"));

describe("reference cases", () => {
  test("are there", () => {
    expect(files.length).toBeGreaterThan(5);
  });

  // Simulations and exact enumerations take their time on a busy machine.
  test.each(files.sort())("%s", { timeout: 120_000 }, (file) => {
    const outcomes = checkCases([join(reference, file)], []);
    const built = outcomes.filter(({ failure }) => !failure?.startsWith("no method"));
    expect(outcomes.length).toBeGreaterThan(0);
    expect(built.filter(({ failure }) => failure !== null)).toEqual([]);
  });
});
