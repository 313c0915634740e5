/** Threads that decode and measure photographs, so that the server answers meanwhile. */
import { fileURLToPath } from "node:url";
import { Piscina } from "piscina";
import type { PhotoRefusal } from "../api/photo.ts";
import type { MeasuredPhoto } from "./photos/measure-photo.ts";
import type { MeasureProgress, MeasureTask } from "./photos/measure-worker.ts";

export type Measurer = {
  run(
    task: MeasureTask,
    handles: { signal: AbortSignal; progress: (share: number) => void },
  ): Promise<MeasuredPhoto | PhotoRefusal>;
  close(): Promise<void>;
};

/** Decoding already spreads over cores; a third picture at once would only take memory. */
export const threads = 2;

export function measurePool(): Measurer {
  const watching = new Map<string, (share: number) => void>();
  const pool = new Piscina<MeasureTask, MeasuredPhoto | PhotoRefusal>({
    filename: fileURLToPath(new URL("./photos/measure-worker.js", import.meta.url)),
    minThreads: 0,
    maxThreads: threads,
    idleTimeout: 30_000,
  });
  pool.on("message", ({ measurement, progress }: MeasureProgress) => watching.get(measurement)?.(progress));
  return {
    async run(task, { signal, progress }) {
      watching.set(task.request.id, progress);
      try {
        return await pool.run(task, { signal });
      } finally {
        watching.delete(task.request.id);
      }
    },
    close: () => pool.close({ force: true }),
  };
}
