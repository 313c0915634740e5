/** Sends and measures many photographs, a few at once; each ends as measured, refused or broken off, and none stops the others. */
import { job, type MeasurementRequest, measurement as measurementSchema, type Photo } from "../../api/photo.ts";
import { isHeicFile } from "../inspect/heic-advice.tsx";
import { startMeasuring, stopJob } from "../inspect/measuring.ts";
import { sendPhoto } from "../inspect/send-photo.ts";
import { ask } from "../shop/ask.ts";
import { batchText } from "../text/batch.ts";
import type { BatchRow, RowState } from "./batch-rows.ts";

/** One is sent while the other is measured. */
const atOnce = 2;
const askAgainMs = 300;

export type BatchRun = {
  rows: readonly BatchRow[];
  requestOf: (row: BatchRow, photo: Photo) => MeasurementRequest;
  signal: AbortSignal;
  progress: (row: string, state: RowState) => void;
};

export async function runBatch({ rows, requestOf, signal, progress }: BatchRun): Promise<void> {
  const left = [...rows];
  const hand = async () => {
    for (let row = left.shift(); row && !signal.aborted; row = left.shift()) {
      const { id } = row;
      const tell = (state: RowState) => progress(id, state);
      tell(await measuredRow(row, { requestOf, signal, tell }).catch((error: unknown) => endOf(error, signal)));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, hand));
}

/** Stopped by hand it is as if it had never begun. */
function endOf(error: unknown, signal: AbortSignal): RowState {
  if (signal.aborted) return { is: "chosen" };
  return { is: "failed", why: error instanceof Error ? error.message : String(error) };
}

type Telling = Pick<BatchRun, "requestOf" | "signal"> & { tell: (state: RowState) => void };

async function measuredRow(row: BatchRow, { requestOf, signal, tell }: Telling): Promise<RowState> {
  if (await isHeicFile(row.file)) return { is: "refused", why: batchText.heic };
  tell({ is: "sending", share: 0 });
  const photo = await sendPhoto({ file: row.file, signal, progress: (share) => tell({ is: "sending", share }) });
  signal.throwIfAborted();
  tell({ is: "measuring", share: 0 });
  const { id } = await startMeasuring(requestOf(row, photo));
  for (;;) {
    if (signal.aborted) {
      await stopJob(id);
      signal.throwIfAborted();
    }
    const { state, progress, refusal, failure } = await ask(job, `/api/jobs/${id}`);
    if (refusal) return { is: "refused", why: refusal.sentence };
    if (state === "done")
      return { is: "measured", measurement: await ask(measurementSchema, `/api/measurements/${id}`) };
    if (state === "failed" || state === "cancelled") return { is: "failed", why: failure ?? batchText.stopped };
    tell({ is: "measuring", share: progress });
    await new Promise((resolve) => setTimeout(resolve, askAgainMs));
  }
}
