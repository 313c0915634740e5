/** One command line run in this process, its standard output and standard error caught. Restore the mocks after each test. */
import { vi } from "vitest";
import { run } from "../src/cli/main.ts";

export type Answered = { code: number; out: string; err: string };

export async function runCommand(...args: string[]): Promise<Answered> {
  const out: string[] = [];
  const err: string[] = [];
  vi.spyOn(console, "log").mockImplementation((line) => void out.push(String(line)));
  vi.spyOn(console, "error").mockImplementation((line) => void err.push(String(line)));
  vi.spyOn(process.stderr, "write").mockImplementation((line) => err.push(String(line)) > 0);
  return { code: await run(args), out: out.join("\n"), err: err.join("\n") };
}
