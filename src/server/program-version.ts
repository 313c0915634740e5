/** The version of the program that runs, as its package says. */
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import * as z from "zod/mini";

const packageFile = z.object({ version: z.string() });

/** The nearest package.json above this file: the source and the built program lie at different depths. */
export function programVersion(): string {
  for (let folder = import.meta.dirname; folder !== dirname(folder); folder = dirname(folder)) {
    const path = join(folder, "package.json");
    if (existsSync(path)) return packageFile.parse(JSON.parse(readFileSync(path, "utf8"))).version;
  }
  throw new Error("There is no package.json above the program: it was not installed whole.");
}
