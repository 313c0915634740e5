import { chmodSync, mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { findBrowser } from "./find-browser.ts";

/** A folder that holds an executable of this name, as PATH would. */
function folderWith(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), "coatwright-browser-"));
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, name), "");
  chmodSync(join(folder, name), 0o755);
  return folder;
}

afterEach(() => vi.unstubAllEnvs());

describe("the browser", () => {
  test("named by CHROMIUM comes before all others", () => {
    const named = join(folderWith("my-browser"), "my-browser");
    vi.stubEnv("CHROMIUM", named);
    vi.stubEnv("PATH", folderWith("chromium"));
    expect(findBrowser({ mayInstall: false })).toEqual({ path: named, advice: null });
  });

  test("is found on PATH under its usual names, in order", () => {
    vi.stubEnv("CHROMIUM", "");
    vi.stubEnv("CHROME_PATH", "");
    const folder = folderWith("google-chrome");
    vi.stubEnv("PATH", folder);
    expect(findBrowser({ mayInstall: false }).path).toBe(join(folder, "google-chrome"));
  });

  test.runIf(process.platform === "linux")("that is nowhere is answered with the command that would bring one", () => {
    vi.stubEnv("CHROMIUM", "/nowhere/chromium");
    vi.stubEnv("CHROME_PATH", "");
    vi.stubEnv("PATH", mkdtempSync(join(tmpdir(), "coatwright-empty-")));
    const found = findBrowser({ mayInstall: false });
    expect(found.path).toBeNull();
    expect(found.advice).toContain("apt-get install chromium");
  });
});
