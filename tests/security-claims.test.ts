/** What docs/security.md claims names the tests that hold it: a test that was moved or renamed would leave a bare claim. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "..");
const said = readFileSync(join(root, "docs", "security.md"), "utf8");

test("every test that the security document names is there", () => {
  const named = [...new Set([...said.matchAll(/`([\w./-]+\.test\.ts)`/g)].map(([, file]) => file!))];
  expect(named.length).toBeGreaterThan(8);
  expect(named.filter((file) => !existsSync(join(root, file)))).toEqual([]);
});

test("every row of what holds against what names its test", () => {
  const rows = said.split("\n").filter((line) => /^\| (?!against|---)/.test(line));
  expect(rows.length).toBeGreaterThan(10);
  expect(rows.filter((row) => !/`[\w./-]+\.test\.ts`/.test(row))).toEqual([]);
});
