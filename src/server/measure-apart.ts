/**
 * Photographs are measured in a process of their own. Its memory goes back to the system when it has nothing to do, and a decoder that
 * breaks down over a file nobody foresaw does not take the server with it.
 */
import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import type { Measurer } from "./measure-pool.ts";
import type { Asked, Told } from "./measure-process.ts";
import type { AdaptedPhoto } from "./photos/adapt-model.ts";
import type { MeasuredPhoto } from "./photos/measure-photo.ts";

const measureProcess = new URL("./measure-process.js", import.meta.url);

/**
 * The C library of most Linux systems keeps freed memory apart for each thread, up to 64 MB each once large pieces were freed: over
 * 200 photographs the server grew from 390 to 600 MB by that. Elsewhere nobody reads this.
 */
const environment = { MALLOC_ARENA_MAX: "2" };

type Waiting = {
  resolve: (answer: never) => void;
  reject: (error: unknown) => void;
  progress: (share: number) => void;
};

/** `idleMs`: how long it stays without work; at a bench the next coupon comes within minutes, and should find it warm. */
export function measureApart({ script = measureProcess, idleMs = 300_000 } = {}): Measurer {
  let child: ChildProcess | null = null;
  let next = 0;
  let idle: NodeJS.Timeout | undefined;
  const waiting = new Map<number, Waiting>();

  const started = (): ChildProcess => {
    if (child) return child;
    // How the server itself was started (a program given as text, a debugger's port) is nothing for it.
    const begun = fork(fileURLToPath(script), {
      ...{ env: { ...process.env, ...environment }, execArgv: [], serialization: "advanced" },
    });
    begun.on("message", (told: Told) => hear(told));
    begun.on("error", (error) => gone(begun, error.message));
    begun.once("exit", (code, signal) => gone(begun, signal ?? `exit code ${code}`));
    child = begun;
    return begun;
  };
  const hear = (told: Told) => {
    const asked = waiting.get(told.at);
    if ("progress" in told) return asked?.progress(told.progress);
    waiting.delete(told.at);
    if (waiting.size === 0) idle = setTimeout(letGo, idleMs).unref();
    if ("error" in told) asked?.reject(told.error);
    // The same task's answer, as its process sent it.
    else asked?.resolve(told.answer as never);
  };
  /** It ends by itself; what is asked for from now on gets a new one. */
  const letGo = () => {
    const unused = child;
    child = null;
    unused?.disconnect();
  };
  const gone = (ended: ChildProcess, how: string) => {
    if (child !== ended) return;
    child = null;
    for (const { reject } of waiting.values())
      reject(
        new Error(`the measuring of this photograph broke off (${how}); the photograph is kept, measure it again`),
      );
    waiting.clear();
  };
  const answered = <Answer>(asked: Asked, progress: (share: number) => void) =>
    new Promise<Answer>((resolve, reject) => {
      clearTimeout(idle);
      waiting.set(asked.at, { resolve, reject, progress });
      started().send(asked);
    });

  return {
    async run(task, { signal, progress }) {
      signal.throwIfAborted();
      const at = next++;
      const cancel = () => void child?.send({ at, ask: "cancel" } satisfies Asked);
      signal.addEventListener("abort", cancel, { once: true });
      return answered<MeasuredPhoto>({ at, ask: "measure", task }, progress).finally(() =>
        signal.removeEventListener("abort", cancel),
      );
    },
    adapt: (task) => answered<AdaptedPhoto | null>({ at: next++, ask: "adapt", task }, () => {}),
    async close() {
      clearTimeout(idle);
      const ending = child;
      if (!ending) return;
      const ended = once(ending, "exit");
      ending.kill("SIGKILL");
      await ended;
    },
  };
}
