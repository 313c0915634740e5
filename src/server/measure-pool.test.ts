import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, onTestFinished, test } from "vitest";
import { photoTask } from "../../tests/photo-task.ts";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { jobQueue } from "./job-queue.ts";
import { type Measurer, measurePool } from "./measure-pool.ts";

/** Does with a photograph what its path says; the real one would only die on a picture that nobody has found yet. */
const workerSource = `
import { parentPort } from "node:worker_threads";
export default async function work(task) {
  parentPort.postMessage({ measurement: task.request.id, progress: 0.5 });
  if (task.photoPath === "throws") throw new Error("not a photograph");
  if (task.photoPath === "dies") process.exit(7);
  if (task.photoPath === "never ends") for (;;);
  // Progress and answer come by ways of their own: one that ends at once may be answered before it is heard of.
  await new Promise((ready) => setTimeout(ready, task.photoPath === "slow" ? 600 : 200));
  return { rustedPercent: 1 };
}
`;

async function pool(longestMs = 20_000): Promise<Measurer> {
  const worker = join(await temporaryFolder(), "worker.mjs");
  await writeFile(worker, workerSource);
  const measurer = measurePool({ worker: pathToFileURL(worker), longestMs });
  onTestFinished(() => measurer.close());
  return measurer;
}
const handles = (signal = new AbortController().signal) => ({ signal, progress: () => {} });

test.each([
  ["throws", /^not a photograph$/],
  [
    "dies",
    /^the measuring of this photograph broke off \(worker exited with code: 7\); no other photograph is touched$/,
  ],
])("a thread that %s fails its own photograph alone, and the next one is measured", async (fate, message) => {
  const measurer = await pool();
  const beside = measurer.run(photoTask("slow"), handles());
  await expect(measurer.run(photoTask(fate), handles())).rejects.toThrow(message);
  expect(await beside).toEqual({ rustedPercent: 1 });
  expect(await measurer.run(photoTask("well"), handles())).toEqual({ rustedPercent: 1 });
});

test("a photograph that is measured for ever is given up after a while, and says so", async () => {
  const measurer = await pool(1_500);
  await expect(measurer.run(photoTask("never ends"), handles())).rejects.toThrow(
    /^this photograph was not measured within 1\.5 s/,
  );
  expect(await measurer.run(photoTask("well"), handles())).toEqual({ rustedPercent: 1 });
});

test("a cancelled measurement ends at once, and its thread is free for the next", async () => {
  const measurer = await pool();
  const jobs = jobQueue({ atOnce: 1, changed: () => {} });
  const abort = new AbortController();
  // Its first news says that it has begun.
  const progress = () => abort.abort();
  await expect(measurer.run(photoTask("never ends"), { signal: abort.signal, progress })).rejects.toThrow(/abort/i);
  jobs.start("next", (given) => measurer.run(photoTask("well"), given).then(() => {}));
  await expect.poll(() => jobs.find("next")).toMatchObject({ state: "done", failure: null });
});

test("each photograph hears of its own progress", async () => {
  const measurer = await pool();
  const heard: string[] = [];
  const measured = ["slow", "well"].map((name) =>
    measurer.run(photoTask(name), {
      signal: new AbortController().signal,
      progress: (share) => heard.push(`${name} ${share}`),
    }),
  );
  await Promise.all(measured);
  expect(heard.sort()).toEqual(["slow 0.5", "well 0.5"]);
});
