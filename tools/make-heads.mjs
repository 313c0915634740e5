// Before any test: what is made from sources, as they stand now.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export default function setup() {
  for (const tool of ["method-heads.mjs", "pixel-loops.mjs"])
    spawnSync(process.execPath, [fileURLToPath(new URL(tool, import.meta.url))], { stdio: "inherit" });
}
