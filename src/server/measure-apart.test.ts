import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, onTestFinished, test } from "vitest";
import { photoTask } from "../../tests/photo-task.ts";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { measureApart } from "./measure-apart.ts";
import type { Measurer } from "./measure-pool.ts";

/** Does with a photograph what its path says, and answers which process it was. */
const script = `
process.on("message", ({ at, ask, task }) => {
  if (ask === "cancel") return process.send({ at, error: new Error("cancelled") });
  process.send({ at, progress: 0.5 });
  if (task.photoPath === "never ends") return;
  if (task.photoPath === "breaks down") process.kill(process.pid, "SIGSEGV");
  if (task.photoPath === "throws") process.send({ at, error: new Error("not a photograph") });
  else process.send({ at, answer: { pid: process.pid, arenas: process.env.MALLOC_ARENA_MAX, flags: process.execArgv } });
});
process.once("disconnect", () => process.exit());
`;

async function apart(idleMs = 30_000): Promise<Measurer> {
  const path = join(await temporaryFolder(), "process.mjs");
  await writeFile(path, script);
  const measurer = measureApart({ script: pathToFileURL(path), idleMs });
  onTestFinished(() => measurer.close());
  return measurer;
}

const handles = (signal = new AbortController().signal) => ({ signal, progress: () => {} });
type Answer = { pid: number; arenas: string; flags: string[] };
const measured = async (measurer: Measurer, photoPath = "well") =>
  (await measurer.run(photoTask(photoPath), handles())) as unknown as Answer;

const isRunning = (pid: number) => {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
};

test("photographs are measured in one other process, with two stores of freed memory, each told of its progress", async () => {
  const measurer = await apart();
  const heard: number[] = [];
  const [one, other] = await Promise.all([
    measurer.run(photoTask("well"), {
      ...handles(),
      progress: (share) => heard.push(share),
    }) as unknown as Promise<Answer>,
    measured(measurer),
  ]);
  // This process has flags of its own (the test runner's); they are not handed on.
  expect(process.execArgv).not.toEqual([]);
  expect(one).toEqual({ pid: other.pid, arenas: "2", flags: [] });
  expect(one.pid).not.toBe(process.pid);
  expect(heard).toEqual([0.5]);
});

test("one that throws fails alone; one over which the process breaks down says so, and the next gets a new process", async () => {
  const measurer = await apart();
  const { pid } = await measured(measurer);
  await expect(measured(measurer, "throws")).rejects.toThrow(/^not a photograph$/);
  await expect(measured(measurer, "breaks down")).rejects.toThrow(/broke off \(SIGSEGV\); the photograph is kept/);
  expect((await measured(measurer)).pid).not.toBe(pid);
});

test("cancelled, it is over; the process stays for the next", async () => {
  const measurer = await apart();
  const { pid } = await measured(measurer);
  const abort = new AbortController();
  const progress = () => abort.abort();
  await expect(measurer.run(photoTask("never ends"), { signal: abort.signal, progress })).rejects.toThrow("cancelled");
  expect((await measured(measurer)).pid).toBe(pid);
});

test("without work it ends, and is there again when it is wanted; closed, it is gone", async () => {
  const measurer = await apart(100);
  const { pid } = await measured(measurer);
  await expect.poll(() => isRunning(pid), { timeout: 5_000 }).toBe(false);
  const again = await measured(measurer);
  expect(again.pid).not.toBe(pid);
  const unanswered = expect(measured(measurer, "never ends")).rejects.toThrow(/broke off/);
  await measurer.close();
  await unanswered;
  expect(isRunning(again.pid)).toBe(false);
});
