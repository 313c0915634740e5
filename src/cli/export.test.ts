import { execFileSync } from "node:child_process";
import { expect, test } from "vitest";
import { quoted } from "./export.ts";

test
  .skipIf(process.platform === "win32")
  .each([
    "oil and wax",
    "$(echo carried out)",
    "`echo carried out`",
    `say "oil"`,
    "the shop's $HOME",
    "a\\b",
    "two\nlines",
  ])("a shell reads %j back as it was, and carries nothing of it out", (word) =>
  expect(execFileSync("sh", ["-c", `printf %s ${quoted(word)}`], { encoding: "utf8" })).toBe(word),
);
