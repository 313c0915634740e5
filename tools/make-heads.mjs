// Before any test: the methods' heads as they stand in the sources now.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export default function setup() {
  spawnSync(process.execPath, [fileURLToPath(new URL("method-heads.mjs", import.meta.url))], { stdio: "inherit" });
}
