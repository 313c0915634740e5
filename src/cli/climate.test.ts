/** `climate`, and a logger's file on its way into a shop. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { runCommand } from "../../tests/run-command.ts";

const airport = join(import.meta.dirname, "../../tests/weather/coastal-airport-2013.csv");
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coatwright-climate-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => vi.restoreAllMocks());

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

describe("climate", () => {
  test("--json is one value in the fixed form", async () => {
    const { code, out } = await runCommand(
      "climate",
      airport,
      "--json",
      "--zone",
      "America/New_York",
      "--thickness",
      "5",
    );
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(Object.keys(answer)).toEqual([
      ...["readings", "duplicates", "intervalHours", "observedHours", "missingHours", "wetHours", "wetHoursPerYear"],
      ...["timeOfWetnessClass", "condensation", "suspect"],
    ]);
    expect(answer).toMatchObject({ readings: 8706, wetHours: 1390, observedHours: 8716, timeOfWetnessClass: "tau3" });
    expect(answer.condensation).toMatchObject({ thicknessMm: 5, heatTransferWM2K: 8 });
    expect(answer.suspect).toEqual([{ from: "2013-01-25T21:00:00Z", to: "2013-01-25T22:00:00Z", what: "jump" }]);
  });

  test.each([
    ["no such file", () => [join(folder, "none.csv")], 3, /is not there/],
    ["one reading", () => [file("one.csv", "time_utc,temp_c,rh\n2026-05-03 14:00,20,50\n")], 3, /^rows is 1/],
    ["a wall clock without its zone", () => [file("wall.csv", wall)], 2, /--zone Area\/City/],
    ["a zone that is none", () => [file("wall.csv", wall), "--zone", "Middle/Earth"], 3, /^zone is "Middle\/Earth"/],
    ["a thickness of 0", () => [file("wall.csv", wall), "--thickness", "0"], 2, /above 0 mm/],
  ])("%s", async (_what, args, exit, said) => {
    const { code, out, err } = await runCommand("climate", ...args());
    expect(err).toMatch(said);
    expect([code, out]).toEqual([exit, ""]);
  });
});

const wall = "time,temp_c,rh\n2026-05-03 14:00,20,50\n2026-05-03 15:00,21,104\n2026-05-03 16:00,21,49\n";

describe("import of a logger's file", () => {
  test("readings are kept once, however often the file comes; what is impossible is left out and told", async () => {
    const args = ["import", file("log.csv", wall), "--site", "shed", "--zone", "Europe/Berlin"];
    const shop = ["--shop", join(folder, "shop"), "--json"];
    const first = await runCommand(...args, ...shop);
    expect(JSON.parse(first.out)).toEqual({ site: "shed", readings: 2, added: 2, repeated: 0, leftOut: 1 });
    expect(JSON.parse((await runCommand(...args, ...shop)).out)).toMatchObject({ added: 0, repeated: 2 });
  });
});
