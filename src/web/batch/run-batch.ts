/** Sends and measures many photographs, a few at once; each ends as measured, refused or broken off, and none stops the others. */
import { job, type MeasurementRequest, measurement as measurementSchema, type Photo } from "../../api/photo.ts";
import { isHeicFile } from "../inspect/heic-advice.tsx";
import { startMeasuring, stopJob } from "../inspect/measuring.ts";
import { sendPhoto } from "../inspect/send-photo.ts";
import { ask, NoAnswer, Refused } from "../shop/ask.ts";
import { newId } from "../shop/new-id.ts";
import { batchText } from "../text/batch.ts";
import type { BatchRow, RowState } from "./batch-rows.ts";

/** One is sent while the other is measured. */
const atOnce = 2;
const askAgainMs = 300;

export type BatchRun = {
  rows: readonly BatchRow[];
  /** `id`: of the work that is asked for. */
  requestOf: (row: BatchRow, photo: Photo, id: string) => MeasurementRequest;
  signal: AbortSignal;
  /** What became known of a row, as it becomes known: kept at once, it outlives the page. */
  progress: (row: string, part: Partial<BatchRow>) => void;
};

export async function runBatch({ rows, requestOf, signal, progress }: BatchRun): Promise<void> {
  const left = [...rows];
  const hand = async () => {
    for (let row = left.shift(); row && !signal.aborted; row = left.shift()) {
      const { id } = row;
      const tell = (part: Partial<BatchRow>) => progress(id, part);
      const state = await measuredRow(row, { requestOf, signal, tell }).catch((error: unknown) => {
        // Where nobody answers, the others would break off as well: they stay as they are.
        if (error instanceof NoAnswer) left.length = 0;
        return endOf(error, signal);
      });
      tell({ state });
    }
  };
  await Promise.all(Array.from({ length: atOnce }, hand));
}

/** Stopped by hand it is as if it had never begun. */
function endOf(error: unknown, signal: AbortSignal): RowState {
  if (signal.aborted) return { is: "chosen" };
  return { is: "failed", why: error instanceof Error ? error.message : String(error) };
}

type Telling = Pick<BatchRun, "requestOf" | "signal"> & { tell: (part: Partial<BatchRow>) => void };

async function measuredRow(row: BatchRow, telling: Telling): Promise<RowState> {
  const { requestOf, signal, tell } = telling;
  const photo = row.photo ?? (await sentPhoto(row, telling));
  if ("is" in photo) return photo;
  signal.throwIfAborted();
  tell({ state: { is: "measuring", share: 0 } });
  const known = row.job === null ? null : await endOfJob(row.job, telling);
  if (known) return known;
  const id = newId();
  tell({ job: id });
  await startMeasuring(requestOf(row, photo, id));
  const end = await endOfJob(id, telling);
  if (end === null || end.is === "failed") tell({ job: null });
  return end ?? { is: "failed", why: batchText.stopped };
}

async function sentPhoto({ file }: BatchRow, { signal, tell }: Telling): Promise<Photo | RowState> {
  if (file === null) return { is: "chosen" };
  if (await isHeicFile(file)) return { is: "refused", why: batchText.heic };
  tell({ state: { is: "sending", share: 0 } });
  const progress = (share: number) => tell({ state: { is: "sending", share } });
  const photo = await sendPhoto({ file, signal, progress });
  // The shop has it: nothing of the file is held here any more.
  tell({ photo, file: null });
  return photo;
}

/** Waits for the work to end; null where the shop knows nothing of it, as after it was started anew in the middle of it. */
async function endOfJob(id: string, { signal, tell }: Telling): Promise<RowState | null> {
  for (;;) {
    if (signal.aborted) {
      await stopJob(id).catch(() => null);
      tell({ job: null });
      signal.throwIfAborted();
    }
    const asked = await ask(job, `/api/jobs/${id}`).catch(orNull);
    if (asked === null) return null;
    const { state, progress, refusal, failure } = asked;
    if (refusal) return { is: "refused", why: refusal.sentence };
    if (state === "done")
      return { is: "measured", measurement: await ask(measurementSchema, `/api/measurements/${id}`) };
    if (state === "failed" || state === "cancelled") return { is: "failed", why: failure ?? batchText.stopped };
    tell({ state: { is: "measuring", share: progress } });
    await new Promise((resolve) => setTimeout(resolve, askAgainMs));
  }
}

function orNull(error: unknown): null {
  if (error instanceof Refused && error.problem.status === 404) return null;
  throw error;
}
