/** Every case under reference/ whose method is built; one test per file. A method not in the table yet is passed over. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkCases } from "./check-cases.ts";

const reference = join(import.meta.dirname, "..", "..", "reference");
const files = readdirSync(reference, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".json"));

/** Cases that are wrong themselves: how wrong, and why they stay as they came. */
const wrongCases: Readonly<Record<string, string>> = {
  "climate.longTermAttack/zinc-30":
    "expects 16.06486658, rounded to eight places, within 1e-9; the formula gives 16.06486657718, as the published worked value does",
};

describe("reference cases", () => {
  test("are there", () => {
    expect(files.length).toBeGreaterThan(5);
  });

  // Simulations and exact enumerations take their time on a busy machine.
  test.each(files.sort())("%s", { timeout: 120_000 }, (file) => {
    const outcomes = checkCases([join(reference, file)], []);
    const built = outcomes.filter(({ failure }) => !failure?.startsWith("no method"));
    expect(outcomes.length).toBeGreaterThan(0);
    expect(built.filter(({ id, failure }) => failure !== null && !(id in wrongCases))).toEqual([]);
  });

  test("a case that is called wrong still fails: one put right must leave the list", () => {
    const failing = checkCases([join(reference, "climate.json")], []).filter(({ failure }) => failure !== null);
    expect(failing.map(({ id }) => id)).toEqual(Object.keys(wrongCases));
  });
});
