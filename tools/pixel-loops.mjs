// Compiles src/core/vision/loops into one WebAssembly module that stands in a TypeScript file. Skipped when that file is of these sources.
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const sources = join(root, "src", "core", "vision", "loops");
const made = join(root, "src", "core", "vision", "pixel-loops.generated.ts");

// No runtime and no allocation: the memory comes from outside, and the loops use what addresses they are told.
const options = [
  ...["-O3", "--noAssert", "--runtime", "stub", "--enable", "simd", "--enable", "threads"],
  ...["--importMemory", "--sharedMemory", "--initialMemory", "2", "--maximumMemory", "12288"],
];

function hashOfSources() {
  const hash = createHash("sha256").update(readFileSync(fileURLToPath(import.meta.url)));
  for (const name of readdirSync(sources).sort()) hash.update(name).update(readFileSync(join(sources, name)));
  return hash.digest("hex").slice(0, 16);
}

export async function compileLoops() {
  const head = `// Made by tools/pixel-loops.mjs from src/core/vision/loops (${hashOfSources()}). Do not edit.`;
  if (existsSync(made) && readFileSync(made, "utf8").startsWith(head)) return;
  const { main } = await import("assemblyscript/asc");
  const folder = mkdtempSync(join(tmpdir(), "pixel-loops-"));
  const outFile = join(folder, "loops.wasm");
  const source = relative(root, join(sources, "loops.ts")).replaceAll("\\", "/");
  const { error, stderr } = await main([source, "--baseDir", root, "--outFile", outFile, ...options]);
  if (error) throw new Error(`the loops over pixels do not compile: ${error.message}\n${stderr}`);
  const module = readFileSync(outFile).toString("base64");
  rmSync(folder, { recursive: true });
  writeFileSync(made, `${head}\n/** The module's bytes in base64. */\nexport const loopsModule =\n  "${module}";\n`);
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await compileLoops();
