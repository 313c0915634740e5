/**
 * Taste that can be tested. Each complaint says why the rule is there.
 */
import { readdirSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { methodTable } from "../src/cli/method-table.ts";
import { verdicts } from "../src/core/trial/finding.ts";
import { accessTable } from "../src/server/sharing/access-table.ts";
// @ts-expect-error plain JavaScript, so that it runs from a bare clone
import { wrongArrows } from "../tools/arrows.mjs";
// @ts-expect-error plain JavaScript, so that it runs from a bare clone
import { allHeads, asDocument, faultsOf } from "../tools/method-heads.mjs";

const root = join(import.meta.dirname, "..");
const source = readdirSync(join(root, "src"), { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.name.includes(".generated."))
  .map((entry) => join(entry.parentPath, entry.name))
  .map((path) => ({ file: path.slice(root.length + 1).replaceAll("\\", "/"), text: readFileSync(path, "utf8") }));
const product = source.filter(({ file }) => !/\.test\.tsx?$/.test(file));
const inRooms = (...rooms: string[]) =>
  product.filter(({ file }) => rooms.some((room) => file.startsWith(`src/${room}/`)));
/** Code without its comments: a comment may speak of a clock. */
const codeOf = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|\s)\/\/.*$/gm, "$1");

const caseIds = new Set(
  readdirSync(join(root, "reference"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.name.endsWith(".json"))
    .flatMap((entry) => JSON.parse(readFileSync(join(entry.parentPath, entry.name), "utf8")) as { method: string }[])
    .map((one) => one.method),
);

describe("the house", () => {
  // The whole tree is read: on a machine that is busy otherwise that takes a while.
  test("arrows point downward and nothing goes round in a circle", { timeout: 120_000 }, async () => {
    expect(await wrongArrows()).toEqual([]);
  });

  test("every method's head has its formula, units, source, status, where it holds and what it refuses", () => {
    expect(faultsOf(allHeads())).toEqual([]);
  });

  test("docs/methods.md says what the heads say: node tools/method-heads.mjs --docs", () => {
    expect(readFileSync(join(root, "docs", "methods.md"), "utf8")).toBe(asDocument(allHeads()));
  });

  test("a method has a head, a row in the method table and cases, all three", () => {
    const heads = new Set<string>(allHeads().map((head: { method: string }) => head.method));
    const complaints = [
      ...[...heads]
        .filter((id) => !caseIds.has(id))
        .map((id) => `${id} has a head but no reference case: who would notice a mistake?`),
      ...[...heads]
        .filter((id) => !(id in methodTable))
        .map((id) => `${id} has a head but no row in src/cli/method-table.ts: its cases are never run`),
      ...Object.keys(methodTable)
        .filter((id) => !heads.has(id))
        .map((id) => `${id} has a row in the method table but no head: "why?" has no answer`),
    ];
    expect(complaints).toEqual([]);
  });

  test("a file of core that computes says its units, source and status", () => {
    const methodRooms = ["numeric", "statistics", "vision", "coating", "rating", "climate"].map(
      (room) => `core/${room}`,
    );
    const silent = inRooms(...methodRooms)
      .filter(({ text }) => /^export (async )?function/m.test(text))
      .filter(
        ({ text }) =>
          !["Units", "Source", "Status"].every((field) => new RegExp(`^\\s*\\* ${field}\\s{2,}\\S`, "m").test(text)),
      )
      .map(
        ({ file }) =>
          `${file} exports a function without Units, Source and Status lines: nobody could check its numbers`,
      );
    expect(silent).toEqual([]);
  });

  test("an exported function of core is explained", () => {
    const bare = inRooms("core").flatMap(({ file, text }) =>
      [...text.matchAll(/^(.*)\nexport (?:async )?function\*? ?(\w+)/gm)]
        .filter(([, before, name]) => !/\*\/\s*$/.test(before!) && !name!.startsWith("require"))
        .map(([, , name]) => `${file}: ${name} has no docstring: what, shapes and units would have to be guessed`),
    );
    expect(bare).toEqual([]);
  });

  test("nothing below the faces reads a clock, chance or the environment", () => {
    const impure = inRooms("core", "api", "report").flatMap(({ file, text }) =>
      [
        ...codeOf(text).matchAll(
          /Math\.random|Date\.now|performance\.now|new Date\(\)|process\.env|crypto\.randomUUID/g,
        ),
      ].map(
        ([found]) => `${file} uses ${found}: the same input would no longer give the same answer; hand the value in`,
      ),
    );
    expect(impure).toEqual([]);
  });

  test("the name of a file or folder says which thing of the trade is in it", () => {
    const says = (name: string) => !/^(utils?|helpers?|misc|common|lib|shared|manager|service|index)s?$/.test(name);
    const empty = source
      .filter(({ file }) => ![...dirname(file).split("/"), basename(file).split(".")[0]!].every(says))
      .map(({ file }) => `${file}: the function in it has a trade and a room; name the file after it`);
    expect(empty).toEqual([]);
  });

  test("a route says in the access table who may use it over the network", () => {
    const routes = inRooms("server").flatMap(({ file, text }) =>
      [...codeOf(text).matchAll(/\bapp\.(get|post|put|patch|delete)\(\s*"(\/api\/[^"]+)"/g)].map(([, method, url]) => ({
        file,
        row: `${method!.toUpperCase()} ${url}`,
      })),
    );
    expect(routes.length).toBeGreaterThan(20);
    const closed = routes
      .filter(({ row }) => !(row in accessTable))
      .map(({ file, row }) => `${file}: "${row}" has no row in src/server/sharing/access-table.ts: a phone gets a 403`);
    expect(closed).toEqual([]);
  });

  test("a published limit stands in one file", () => {
    // A run of five or more of a table's own limits in a second file is the table typed again.
    const limitRuns = (text: string) =>
      [...codeOf(text).matchAll(/(?:upTo\w*|below\w*|limit\w*|max\w*): (\d+(?:\.\d+)?)/g)].map(([, number]) => number!);
    const tables = product.map(({ file, text }) => ({ file, limits: limitRuns(text) }));
    const twice = tables
      .filter(({ limits }) => limits.length >= 5)
      .flatMap(({ file, limits }, at, all) =>
        all
          .slice(at + 1)
          .filter((other) => other.limits.join() === limits.join())
          .map((other) => `${other.file} repeats the limits of ${file}`),
      );
    expect(twice).toEqual([]);
  });

  test("a verdict is one of the five words", () => {
    const others = /\b(proven|significant(?:ly)?|inconclusive|no effect|better \(p)\b/i;
    const wrong = inRooms("core/trial", "report", "web").flatMap(({ file, text }) =>
      [...text.matchAll(/verdict(?::|=) ?["']([a-z ]+)["']/g)]
        .filter(([, word]) => !verdicts.some((verdict) => verdict === word))
        .map(([, word]) => `${file}: verdict "${word}"; a verdict is one of: ${verdicts.join(", ")}`)
        .concat(
          codeOf(text).match(others)
            ? [`${file} says "${codeOf(text).match(others)![0]}": only the five verdicts are said`]
            : [],
        ),
    );
    expect(wrong).toEqual([]);
  });
});
