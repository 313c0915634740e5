/** Sends and measures many photographs, a few at once; each ends as measured, refused or broken off, and none stops the others. */
import type { MeasurementRequest, Photo } from "../../api/photo.ts";
import { type EndOfJob, endOfJob } from "../inspect/end-of-job.ts";
import { isHeicFile } from "../inspect/heic-advice.tsx";
import { startMeasuring } from "../inspect/measuring.ts";
import { sendPhoto } from "../inspect/send-photo.ts";
import { NoAnswer } from "../shop/ask.ts";
import { newId } from "../shop/new-id.ts";
import { batchText } from "../text/batch.ts";
import type { BatchRow, RowState } from "./batch-rows.ts";

/** One is sent while the other is measured. */
const atOnce = 2;

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
  const known = row.job === null ? null : await endOfRow(row.job, telling);
  if (known !== null && known.is !== "unknown") return stateOf(known);
  const id = newId();
  tell({ job: id });
  await startMeasuring(requestOf(row, photo, id));
  const end = await endOfRow(id, telling);
  if (end.is === "failed") tell({ job: null });
  return stateOf(end);
}

const endOfRow = (id: string, { signal, tell }: Telling): Promise<EndOfJob> =>
  endOfJob(id, { signal, progress: (share) => tell({ state: { is: "measuring", share } }) }).catch((error: unknown) => {
    // Stopped by hand: the next time it is other work.
    if (signal.aborted) tell({ job: null });
    throw error;
  });

function stateOf(end: EndOfJob): RowState {
  if (end.is === "unknown") return { is: "failed", why: batchText.stopped };
  return end.is === "failed" ? { is: "failed", why: end.why ?? batchText.stopped } : end;
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
