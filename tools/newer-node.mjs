// The store's and the API's tests on the Node whose SQLite is built in. That Node comes from the package registry.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const folder = mkdtempSync(join(tmpdir(), "coatwright-node24-"));
writeFileSync(join(folder, "package.json"), '{"private":true,"allowScripts":{"node":true}}');
const installed = spawnSync("npm", ["install", "node@24", "--no-fund", "--no-audit"], {
  cwd: folder,
  stdio: ["ignore", 2, 2],
  shell: process.platform === "win32",
});
const node = [
  join(folder, "node_modules", "node", "bin", "node"),
  join(folder, "node_modules", "node", "bin", "node.exe"),
].find((path) => existsSync(path));
if (installed.status !== 0 || !node) {
  console.error(
    "Node 24 could not be fetched from the package registry; the store was not tried on its built-in SQLite.",
  );
  process.exit(1);
}
console.log(`Store and API on Node ${spawnSync(node, ["--version"]).stdout.toString().trim()}`);
const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
const { status } = spawnSync(node, [vitest, "run", "src/store", "src/server", "--reporter=default"], {
  cwd: root,
  stdio: "inherit",
});
process.exit(status ?? 1);
