// Reads the head of each method in src/core into one file, from which the page answers "why?" and docs/methods.md is made.
// Run before type checks, tests and builds. `--docs` also writes docs/methods.md.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const core = join(root, "src", "core");
export const fields = ["Method", "Formula", "Units", "Source", "Status", "Holds", "Refuses"];
const statuses = ["published", "computed", "memory", "common practice"];

/** Heads of one source text: one per doc comment that has a `Method` line. */
export function headsIn(text, file) {
  const heads = [];
  for (const [, comment] of text.matchAll(/\/\*\*([\s\S]*?)\*\//g)) {
    const lines = comment.split("\n").map((line) => line.replace(/^\s*\* ?/, "").trimEnd());
    if (!lines.some((line) => /^Method\s{2,}\S/.test(line))) continue;
    const head = { file, summary: "" };
    let field = null;
    for (const line of lines) {
      const start = line.match(/^([A-Z][a-z]+)\s{2,}(\S.*)$/);
      if (start && fields.includes(start[1])) {
        field = start[1].toLowerCase();
        head[field] = start[2];
      } else if (/^@/.test(line)) field = null;
      else if (field && line.trim()) head[field] += ` ${line.trim()}`;
      else if (field && !line.trim()) field = null;
      else if (!field && !head.method && line.trim()) head.summary += (head.summary ? " " : "") + line.trim();
    }
    // One function may answer two ids: "Method   rating.a, rating.b".
    for (const method of head.method.split(/,\s*/)) heads.push({ ...head, method });
  }
  return heads;
}

export function allHeads() {
  const heads = [];
  for (const entry of readdirSync(core, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !entry.name.endsWith(".ts") || /\.(test|generated)\.ts$/.test(entry.name)) continue;
    const file = join(entry.parentPath ?? entry.path, entry.name);
    heads.push(...headsIn(readFileSync(file, "utf8"), relative(root, file).replaceAll("\\", "/")));
  }
  return heads.sort((a, b) => (a.method < b.method ? -1 : 1));
}

export function faultsOf(heads) {
  const faults = [];
  const seen = new Map();
  for (const head of heads) {
    for (const field of fields)
      if (!head[field.toLowerCase()])
        faults.push(`${head.file}: ${head.method} has no "${field}" line in its head; "why?" would have no answer`);
    if (head.status && !statuses.includes(head.status))
      faults.push(`${head.file}: status of ${head.method} is "${head.status}"; expected one of ${statuses.join(", ")}`);
    if (seen.has(head.method)) faults.push(`${head.file}: ${head.method} also stands in ${seen.get(head.method)}`);
    seen.set(head.method, head.file);
  }
  return faults;
}

function asModule(heads) {
  const type = `{ method: string; file: string; summary: string; formula: string; units: string; source: string; status: string; holds: string; refuses: string }`;
  return `// Made by tools/method-heads.mjs from the heads in src/core. Do not edit.\nexport type MethodHead = ${type};\nexport const methodHeads: readonly MethodHead[] = ${JSON.stringify(heads, null, 1)};\n`;
}

export function asDocument(heads) {
  const cell = (text) => text.replaceAll("|", "\\|");
  const rows = heads.map(
    (h) =>
      `| \`${h.method}\` | ${cell(h.summary)} | ${cell(h.formula)} | ${cell(h.source)} | ${h.status} | ${cell(h.holds)} | ${cell(h.refuses)} |`,
  );
  return `# Methods\n\nMade by \`node tools/method-heads.mjs --docs\` from the heads in \`src/core\`; edit them there.\n\n| method | what | formula | source | status | holds | refuses |\n|---|---|---|---|---|---|---|\n${rows.join("\n")}\n`;
}

if (process.argv[1] && fileURLToPath(import.meta.url) === process.argv[1]) {
  const heads = allHeads();
  writeFileSync(join(core, "method-heads.generated.ts"), asModule(heads));
  if (process.argv.includes("--docs")) {
    mkdirSync(join(root, "docs"), { recursive: true });
    writeFileSync(join(root, "docs", "methods.md"), asDocument(heads));
  }
}
