// From a bare clone to a running page or a finished test run, with Node alone: install, build, go.
// Each part is skipped when its stamp says that nothing changed since.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const [what, ...rest] = process.argv.slice(2);

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Coatwright needs Node 20.19 or newer; this is Node ${process.versions.node}. Newer ones: nodejs.org`);
  process.exit(1);
}

if (!["install", "build", "start", "test"].includes(what)) {
  console.error("usage: node tools/go.mjs install | build | start [options] | test [vitest options]");
  process.exit(2);
}
install();
if (what !== "install") build();
if (what === "start") await start();
if (what === "test") await test();

function run(command, args, purpose) {
  // Standard output stays free for the command's own answer.
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: ["inherit", 2, 2] });
  if (error) console.error(String(error));
  if (status !== 0) {
    console.error(`${purpose} failed; the lines above say why.`);
    process.exit(status ?? 1);
  }
}

function install() {
  const stamp = join(root, "node_modules", ".coatwright-installed");
  const wanted = hashOf([join(root, "package-lock.json")], `${process.version} ${process.platform} ${process.arch}`);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  // npm empties node_modules before it fills it: through a link, that would be somebody else's folder.
  if (lstatSync(join(root, "node_modules"), { throwIfNoEntry: false })?.isSymbolicLink()) {
    console.error(
      "node_modules is a link to another folder, whose packages are not the ones wanted here. Remove the link, or install in the folder it leads to.",
    );
    process.exit(3);
  }
  console.error("Installing what Coatwright is built from (once, about half a minute)...");
  const npm = process.env.npm_execpath;
  if (npm) run(process.execPath, [npm, "ci", "--no-fund", "--no-audit"], "Installing");
  else if (process.platform === "win32") run("cmd", ["/c", "npm ci --no-fund --no-audit"], "Installing");
  else run("npm", ["ci", "--no-fund", "--no-audit"], "Installing");
  writeFileSync(stamp, wanted);
}

function build() {
  const stamp = join(root, "dist", ".coatwright-built");
  const wanted = hashOf(
    [
      ...filesBelow(join(root, "src")),
      ...filesBelow(join(root, "tools")),
      ...["package.json", "package-lock.json", "tsconfig.json", "tsconfig.node.json", "vite.config.ts"].map((name) =>
        join(root, name),
      ),
    ],
    "",
  );
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  console.error("Building...");
  // A build that fails half-way has changed files already: the old stamp would vouch for them.
  rmSync(stamp, { force: true });
  const script = (path) => join(root, "node_modules", path);
  run(process.execPath, [join(root, "tools", "method-heads.mjs")], "Reading the methods' heads");
  run(process.execPath, [join(root, "tools", "pixel-loops.mjs")], "Compiling the loops over pixels");
  run(process.execPath, [script("typescript/bin/tsc"), "-p", "tsconfig.node.json"], "Building the command line");
  // The printed report inlines its style sheets; the compiler leaves them behind.
  for (const file of filesBelow(join(root, "src", "report")).filter((name) => name.endsWith(".css")))
    cpSync(file, file.replace(join(root, "src"), join(root, "dist", "node")));
  run(process.execPath, [script("vite/bin/vite.js"), "build", "--logLevel", "warn"], "Building the page");
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}

async function start() {
  const { run: coatwright } = await import(pathToFileURL(join(root, "dist", "node", "cli", "main.js")).href);
  process.exitCode = await coatwright(["serve", ...rest]);
}

async function test() {
  const { findBrowser } = await import(pathToFileURL(join(root, "dist", "node", "cli", "find-browser.js")).href);
  const browser = findBrowser({ mayInstall: true });
  if (browser.path) process.env.CHROMIUM = browser.path;
  else {
    console.error(browser.advice);
    if (process.env.CI) process.exit(1);
  }
  const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
  const { status } = spawnSync(process.execPath, [vitest, "run", ...rest], { cwd: root, stdio: "inherit" });
  process.exit(status ?? 1);
}

function filesBelow(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.includes(".generated."))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function hashOf(files, more) {
  const hash = createHash("sha256").update(more);
  // Named from the root: a folder that was moved is not another folder.
  for (const file of files) hash.update(relative(root, file)).update(readFileSync(file));
  return hash.digest("hex");
}
