/** The commands that need no shop but a table, and those that carry tables into a shop and out of it. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { runCommand } from "../../tests/run-command.ts";

const fixture = (name: string) => join(import.meta.dirname, "../../tests/tables", name);
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coatwright-tables-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => vi.restoreAllMocks());

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

describe("findings", () => {
  test("--json is one value in the fixed form, and nothing else", async () => {
    const { code, out } = await runCommand("findings", fixture("shed-looks.csv"), "--json", "--margin", "1.5");
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(Object.keys(answer)).toEqual([
      "response",
      "kind",
      "family",
      "control",
      "units",
      "overall",
      "findings",
      "confounded",
      "notes",
    ]);
    expect(Object.keys(answer.findings[0])).toEqual([
      "first",
      "second",
      "n",
      "effect",
      "p",
      "pAdjusted",
      "pAdjustedIsLowerBound",
      "pMin",
      "method",
      "margin",
      "equivalence",
      "verdict",
      "sentence",
      "because",
      "wouldTell",
    ]);
    expect(answer).toMatchObject({
      response: "time to first rust",
      kind: "time",
      family: "control",
      control: "Control",
    });
    expect(answer.units).toEqual({ "paste wax": 6, "emulsion oil": 6, Control: 6 });
    expect(answer.findings.map((one: { first: string; second: string }) => `${one.first} / ${one.second}`)).toEqual([
      "paste wax / Control",
      "emulsion oil / Control",
      "paste wax / emulsion oil",
    ]);
    expect(answer.notes).toContainEqual(expect.stringMatching(/^Witness bare, 3 coupons: the first by day 1/));
  });

  test("without --json: sentence and verdict of each comparison", async () => {
    const { code, out } = await runCommand("findings", fixture("shed-looks.csv"));
    expect(code).toBe(0);
    expect(out).toMatch(/paste wax against Control: SHOWN\n {2}Paste wax beat Control/);
  });

  test.each([
    ["dates that can be read two ways", ["two-oils-dates.csv"], 3, "read one way only (--dates dmy or mdy)"],
    ["which they are, said", ["two-oils-dates.csv", "--dates", "dmy"], 0, ""],
    [
      "a look before --from",
      ["two-oils-dates.csv", "--dates", "dmy", "--from", "2026-04-04"],
      3,
      "expected 2026-04-04 or later (--from)",
    ],
    ["values of no kind", ["tape-classes.csv"], 2, "--kind"],
    ["tape classes", ["tape-classes.csv", "--response", "tape class", "--kind", "ordinal"], 0, ""],
    [
      "continuous values, no better way",
      ["coating-mass.csv", "--response", "mass", "--kind", "continuous"],
      2,
      "--better",
    ],
    ["strokes", ["wear-strokes.csv"], 0, ""],
    ["area of strokes", ["wear-strokes.csv", "--response", "area"], 3, "response"],
    ["a control that is not there", ["shed-looks.csv", "--control", "tallow"], 3, 'control is "tallow"'],
    ["a witness that is not there", ["shed-looks.csv", "--witness", "tallow"], 3, 'witness is "tallow"'],
    ["a day without looks", ["shed-looks.csv", "--response", "area", "--at", "15"], 3, "at is 15"],
    ["an unknown option", ["shed-looks.csv", "--colour"], 2, "--colour"],
    ["a margin that is no number", ["shed-looks.csv", "--margin", "some"], 2, "Expected a number"],
    ["words without a percent", ["shed-looks.csv", "--words", "none,spots"], 2, "spots=3"],
    ["an unknown column", ["shed-looks.csv", "--circumstance", "moon"], 3, "moon"],
    ["no such file", ["nothing.csv"], 3, "is not there"],
  ] as const)("%s: %o exits with %d", async (_what, [name, ...args], code, words) => {
    const result = await runCommand("findings", fixture(name), ...args);
    expect(result.code).toBe(code);
    expect(result.err).toContain(words);
    if (code !== 0) expect(result.out).toBe("");
  });

  test.each([
    ["a picture under the name of a table", Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16), "not in UTF-8"],
    ["an empty file", "", "a header row"],
    [
      "120 %",
      "coupon,treatment,day,rusted_percent\n1,oil,7,120\n2,wax,7,0\n",
      "row 2, rusted_percent: 120; expected a percentage",
    ],
    ["rust on day 0", "coupon,treatment,day,rusted_percent\n1,oil,0,5\n2,wax,0,0\n", "--from"],
  ])("%s is refused", async (_what, content, words) => {
    const { code, err } = await runCommand("findings", file("bad.csv", content));
    expect(code).toBe(3);
    expect(err).toContain(words);
  });
});

describe("plan", () => {
  const draft = {
    question: "Does wax keep longer?",
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    treatments: [
      { name: "oil", role: "control", route: [{ name: "oil dip", treated: "alone" }], coupons: 6 },
      { name: "wax", role: "finish", route: [{ name: "wax pot", treated: "together" }], coupons: 6 },
    ],
    blocks: 3,
    couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
    edgeBandMm: 5,
    rustThresholdPercent: 0.01,
    lookDays: [7, 14, 21, 28, 35, 42],
    rackColumns: 6,
    sparesOfEach: 0,
    seed: 4,
  };

  test("says what can be told before anything is coated, and draws lots", async () => {
    const { code, out } = await runCommand("plan", file("draft.json", JSON.stringify(draft)), "--json");
    const { outlook, plan } = JSON.parse(out);
    expect(code).toBe(0);
    expect(outlook.questions[0].comparisons[0]).toMatchObject({
      first: "wax",
      second: "oil",
      n: [1, 6],
      atBest: "cannot be told",
    });
    expect(outlook.proposals[0]).toContain('Do "wax pot" coupon by coupon');
    expect(plan.places).toHaveLength(12);
  });

  test("as text", async () => {
    const { code, out } = await runCommand(
      "plan",
      file("draft.json", JSON.stringify(draft)),
      "--control-median",
      "10",
      "--best-median",
      "50",
    );
    expect(code).toBe(0);
    expect(out).toMatch(/1 unit: all six in one go \(wax pot\)[\s\S]*Better:[\s\S]*Looks:[\s\S]*Coupons/);
  });

  test.each([
    ["a field that is wrong", JSON.stringify({ ...draft, blocks: 0 }), [], 3, "blocks"],
    ["not JSON", "{", [], 3, "is not JSON"],
    [
      "two treatments of one name",
      JSON.stringify({ ...draft, treatments: [draft.treatments[0], draft.treatments[0]] }),
      [],
      3,
      "treatments[1].name",
    ],
    ["half of the medians", JSON.stringify(draft), ["--best-median", "50"], 2, "go together"],
  ])("%s is refused", async (_what, content, args, code, words) => {
    const result = await runCommand("plan", file("draft.json", content), ...args);
    expect(result.code).toBe(code);
    expect(result.err).toContain(words);
  });
});

describe("a notebook into a shop and out of it", () => {
  test("--dry-run shows what is understood, and what is not", async () => {
    const good = await runCommand("import", fixture("shed-looks.csv"), "--dry-run", "--json");
    expect(good.code).toBe(0);
    expect(JSON.parse(good.out)).toMatchObject({
      understood: { form: "looks", coupons: 21 },
      problems: [],
      questions: [],
    });
    const doubtful = await runCommand("import", fixture("two-oils-dates.csv"), "--dry-run");
    expect(doubtful.code).toBe(3);
    expect(doubtful.out).toContain("03.04.2026 can be 2026-04-03 (dmy) or 2026-03-04 (mdy): which?");
  });

  test("a size is needed to store it", async () => {
    const { code, err } = await runCommand("import", fixture("shed-looks.csv"), "--shop", join(folder, "shop"));
    expect(code).toBe(2);
    expect(err).toContain("--size");
  });

  test("imported, exported, and asked again: the same answers", async () => {
    const shop = ["--shop", join(folder, "shop")];
    const imported = await runCommand(
      "import",
      fixture("shed-looks.csv"),
      "--size",
      "100x60x3",
      "--name",
      "shed",
      "--margin",
      "1.5",
      ...shop,
    );
    expect(imported.err).toBe("");
    expect(imported.code).toBe(0);
    const twice = await runCommand(
      "import",
      fixture("shed-looks.csv"),
      "--size",
      "100x60x3",
      "--margin",
      "1.5",
      ...shop,
    );
    expect(twice).toMatchObject({ code: 3, err: expect.stringContaining('already, as the trial "shed"') });
    const out = join(folder, "out");
    const exported = await runCommand("export", "shed", "--out", out, "--json", ...shop);
    expect(exported.code).toBe(0);
    expect(readdirSync(out)).toEqual(["looks.csv"]);
    const { tables, cannot } = JSON.parse(exported.out);
    expect(cannot).toEqual([]);
    const before = await runCommand("findings", fixture("shed-looks.csv"), "--margin", "1.5", "--json");
    const after = await runCommand("findings", tables[0].file, ...tables[0].flags, "--json");
    const answers = ({ out: text }: { out: string }) => ({ ...JSON.parse(text), notes: [] });
    expect(answers(after)).toEqual(answers(before));
    expect(readFileSync(tables[0].file, "utf8")).toMatch(/^coupon,treatment,day,face,rusted_percent/);
    expect((await runCommand("export", "shed", "--out", out, ...shop)).code).toBe(3);
  });

  const ratings = [
    "coupon,treatment,day,rating,oven",
    ...[10, 9, 9, 8].map((rating, at) => `O${at},oil,14,${rating},20`),
    ...[10, 10, 10, 9].map((rating, at) => `W${at},wax,14,${rating},21`),
  ].join("\n");
  const passed = [
    "coupon,treatment,value",
    ...["fail", "fail", "pass", "fail"].map((value, at) => `O${at},oil,${value}`),
    ...["pass", "pass", "pass", "pass"].map((value, at) => `W${at},wax,${value}`),
  ].join("\n");
  test.each([
    ["strokes", () => fixture("wear-strokes.csv"), ["--seed", "7", "--margin", "1.5"]],
    [
      "masses as ratios",
      () => fixture("coating-mass.csv"),
      ["--response", "coating mass", "--kind", "continuous", "--better", "higher", "--log"],
    ],
    ["tape classes", () => fixture("tape-classes.csv"), ["--response", "adhesion", "--kind", "ordinal"]],
    [
      "grades of ratings",
      () => file("ratings.csv", ratings),
      ["--scale", "d610", "--response", "grade", "--circumstance", "oven", "--exploratory"],
    ],
    ["pass and fail", () => file("passed.csv", passed), ["--response", "holds", "--kind", "binary", "--not-blind"]],
  ] as const)("a trial keeps %s and gives them back", async (name, table, flags) => {
    const shop = ["--shop", join(folder, "shop")];
    const path = table();
    const imported = await runCommand("import", path, "--size", "100x60x3", "--name", name, ...flags, ...shop);
    expect(imported.err).toBe("");
    const exported = await runCommand("export", name, "--out", join(folder, name), "--json", ...shop);
    const { tables, cannot } = JSON.parse(exported.out);
    expect(cannot).toEqual([]);
    const answers = async (file: string, more: readonly string[]) => {
      const { code, out } = await runCommand("findings", file, ...more, "--json");
      expect(code).toBe(0);
      return { ...JSON.parse(out), notes: [] };
    };
    expect(await answers(tables[0].file, tables[0].flags)).toEqual(await answers(path, flags));
  });
});
