/** Finds a Chromium-like browser for PDF and for the page's tests; on Debian as root it may install one. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge"];
const usualPlaces: Partial<Record<NodeJS.Platform, string[]>> = {
  win32: [
    "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
    "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
    "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
  ],
  darwin: [
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  ],
};
const advices: Partial<Record<NodeJS.Platform, string>> & { linux: string } = {
  win32: "No browser found. Install one with: winget install Google.Chrome (or set CHROMIUM to its path)",
  darwin: "No browser found. Install one with: brew install --cask chromium (or set CHROMIUM to its path)",
  linux: "No browser found. Install one with: sudo apt-get install chromium (or set CHROMIUM to its path)",
};

export type FoundBrowser = { path: string; advice: null } | { path: null; advice: string };

/** The browser's path, or the one command that would bring one. */
export function findBrowser({ mayInstall }: { mayInstall: boolean }): FoundBrowser {
  const path = named() ?? onPath() ?? inUsualPlaces();
  if (path) return { path, advice: null };
  if (mayInstall && process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.error("Installing Chromium for the page's tests...");
    spawnSync("apt-get", ["-q", "update"], { stdio: ["ignore", 2, 2] });
    const packages = ["chromium", "fonts-dejavu-core"];
    spawnSync("apt-get", ["-q", "install", "-y", "--no-install-recommends", ...packages], { stdio: ["ignore", 2, 2] });
    const installed = onPath();
    if (installed) return { path: installed, advice: null };
  }
  return { path: null, advice: advices[process.platform] ?? advices.linux };
}

function named() {
  return [process.env.CHROMIUM, process.env.CHROME_PATH].find((path) => path && existsSync(path));
}

function onPath() {
  const folders = (process.env.PATH ?? "").split(delimiter);
  return folders.flatMap((folder) => names.map((name) => join(folder, name))).find((path) => existsSync(path));
}

function inUsualPlaces() {
  return (usualPlaces[process.platform] ?? []).find((path) => existsSync(path));
}
