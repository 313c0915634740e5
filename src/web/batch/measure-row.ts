/** Measures one of many photographs that the shop has; it ends as measured, refused or broken off, and stops none of the others. */
import type { MeasurementRequest, Photo } from "../../api/photo.ts";
import { type EndOfJob, endOfJob } from "../inspect/end-of-job.ts";
import { startMeasuring } from "../inspect/measuring.ts";
import { NoAnswer } from "../shop/ask.ts";
import { newId } from "../shop/new-id.ts";
import { batchText } from "../text/batch.ts";
import type { BatchRow, RowState } from "./batch-rows.ts";

/** One waits in the shop while the other is measured. */
export const atOnce = 2;

type Measuring = {
  /** `id`: of the work that is asked for. */
  requestOf: (photo: Photo, id: string) => MeasurementRequest;
  signal: AbortSignal;
  /** What became known of the row, as it becomes known: kept at once, it outlives the page. */
  tell: (part: Partial<BatchRow>) => void;
};

export async function measureRow(row: BatchRow, photo: Photo, measuring: Measuring): Promise<void> {
  const { tell, signal } = measuring;
  tell({ state: { is: "measuring", share: 0 } });
  const state = await endOfRow(row.job, photo, measuring).catch((error: unknown): RowState => {
    // Stopped by hand it is as if it had never begun; where nobody answers, it goes on when somebody does.
    if (signal.aborted || error instanceof NoAnswer) return { is: "chosen" };
    return { is: "failed", why: error instanceof Error ? error.message : String(error) };
  });
  // What broke off is asked for again by hand; what was stopped, too.
  tell({ state, ...(state.is === "failed" || signal.aborted ? { isAsked: false } : {}) });
}

async function endOfRow(asked: string | null, photo: Photo, { requestOf, signal, tell }: Measuring): Promise<RowState> {
  const ended = (id: string) => endOfWork(id, { signal, tell });
  const known = asked === null ? null : await ended(asked);
  if (known !== null && known.is !== "unknown") return stateOf(known);
  const id = newId();
  tell({ job: id });
  await startMeasuring(requestOf(photo, id));
  const end = await ended(id);
  if (end.is === "failed") tell({ job: null });
  return stateOf(end);
}

const endOfWork = (id: string, { signal, tell }: Pick<Measuring, "signal" | "tell">): Promise<EndOfJob> =>
  endOfJob(id, { signal, progress: (share) => tell({ state: { is: "measuring", share } }) }).catch((error: unknown) => {
    // Stopped by hand: the next time it is other work.
    if (signal.aborted) tell({ job: null });
    throw error;
  });

function stateOf(end: EndOfJob): RowState {
  if (end.is === "unknown") return { is: "failed", why: batchText.stopped };
  return end.is === "failed" ? { is: "failed", why: end.why ?? batchText.stopped } : end;
}
