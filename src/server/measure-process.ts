/** The process in which photographs are measured (`measure-apart.ts` starts it): hands tasks to its threads and sends their answers back. */
import { measurePool } from "./measure-pool.ts";
import type { AdaptTask } from "./photos/adapt-model.ts";
import type { MeasureTask } from "./photos/measure-worker.ts";

/** What the server sends; `at` names the task in all that is said of it. */
export type Asked =
  | { at: number; ask: "measure"; task: MeasureTask }
  | { at: number; ask: "adapt"; task: AdaptTask }
  | { at: number; ask: "cancel" };

/** What comes back: news while it runs, then one answer or one error. */
export type Told = { at: number } & ({ progress: number } | { answer: unknown } | { error: Error });

const pool = measurePool();
const running = new Map<number, AbortController>();
const tell = (told: Told) => void (process.connected && process.send?.(told));

process.on("message", (asked: Asked) => {
  if (asked.ask === "cancel") running.get(asked.at)?.abort();
  else void answer(asked);
});
// Ctrl-C reaches both processes: the server decides when this one ends.
process.on("SIGINT", () => {});
// A server that was killed leaves nothing running behind it.
process.once("disconnect", () => process.exit());

async function answer(asked: Exclude<Asked, { ask: "cancel" }>): Promise<void> {
  const { at } = asked;
  const abort = new AbortController();
  running.set(at, abort);
  const handles = { signal: abort.signal, progress: (progress: number) => tell({ at, progress }) };
  try {
    tell({ at, answer: await (asked.ask === "measure" ? pool.run(asked.task, handles) : pool.adapt(asked.task)) });
  } catch (error) {
    tell({ at, error: error instanceof Error ? error : new Error(String(error)) });
  } finally {
    running.delete(at);
  }
}
