/** Threads that decode and measure photographs, so that the server answers meanwhile. */
import { fileURLToPath } from "node:url";
import { Piscina } from "piscina";
import type { PhotoRefusal } from "../api/photo.ts";
import type { AdaptedPhoto, AdaptTask } from "./photos/adapt-model.ts";
import type { MeasuredPhoto } from "./photos/measure-photo.ts";
import type { MeasureProgress, MeasureTask } from "./photos/measure-worker.ts";

export type Measurer = {
  run(
    task: MeasureTask,
    handles: { signal: AbortSignal; progress: (share: number) => void },
  ): Promise<MeasuredPhoto | PhotoRefusal>;
  /** A model fitted to strokes on a photograph that was measured, and what it finds there. */
  adapt(task: AdaptTask): Promise<AdaptedPhoto | null>;
  close(): Promise<void>;
};

/** Decoding already spreads over cores; a third picture at once would only take memory. */
export const threads = 2;

const measureWorker = new URL("./photos/measure-worker.js", import.meta.url);
/** Measuring takes a few seconds: a thread that is still at it after this long will not end. */
const longestMeasurementMs = 120_000;
/** A new thread takes four times as long over its first photograph; at a bench the next coupon comes within minutes. */
const keptWarmMs = 300_000;

/** A thread that dies or never ends takes its own photograph with it and no other; the next one gets a new thread. */
export function measurePool({ worker = measureWorker, longestMs = longestMeasurementMs } = {}): Measurer {
  const watching = new Map<string, (share: number) => void>();
  const kind = { filename: fileURLToPath(worker), minThreads: 0, idleTimeout: keptWarmMs };
  const pool = new Piscina<MeasureTask, MeasuredPhoto | PhotoRefusal>({ ...kind, maxThreads: threads });
  // A finger waits for it: one thread that no queue of photographs stands before.
  const adapting = new Piscina<AdaptTask, AdaptedPhoto | null>({ ...kind, maxThreads: 1 });
  pool.on("message", ({ measurement, progress }: MeasureProgress) => watching.get(measurement)?.(progress));
  return {
    async run(task, { signal, progress }) {
      watching.set(task.request.id, progress);
      const tooLong = AbortSignal.timeout(longestMs);
      try {
        return await pool.run(task, { signal: AbortSignal.any([signal, tooLong]) });
      } catch (error) {
        if (tooLong.aborted && !signal.aborted)
          throw new Error(`this photograph was not measured within ${longestMs / 1000} s; try a smaller picture of it`);
        if (hasDied(error))
          throw new Error(
            `the measuring of this photograph broke off (${error.message}); no other photograph is touched`,
          );
        throw error;
      } finally {
        watching.delete(task.request.id);
      }
    },
    adapt: (task) => adapting.run(task, { name: "adapt" }),
    close: async () => {
      await Promise.all([pool.close({ force: true }), adapting.close({ force: true })]);
    },
  };
}

/** The thread itself ended, where an error of the measuring comes back in its own words. */
function hasDied(error: unknown): error is Error {
  return error instanceof Error && error.message.startsWith("worker exited");
}
