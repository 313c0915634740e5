// Lets a child process of a test run the sources as they stand, also on a Node that reads no TypeScript by itself.
import { readFile } from "node:fs/promises";
import { register } from "node:module";
import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import ts from "typescript";

if (isMainThread && !process.features.typescript) register(import.meta.url);

export async function load(url, context, next) {
  if (!/\.tsx?$/.test(url)) return next(url, context);
  const source = await readFile(fileURLToPath(url), "utf8");
  const compilerOptions = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023, jsx: ts.JsxEmit.ReactJSX };
  return {
    format: "module",
    shortCircuit: true,
    source: ts.transpileModule(source, { compilerOptions, fileName: url }).outputText,
  };
}
