/** Long work in turn: a few at a time, watched and cancelled by its id. Jobs live as long as the server. */
import type { Job, PhotoRefusal } from "../api/photo.ts";

export type Work = (handles: { signal: AbortSignal; progress: (share: number) => void }) => Promise<void>;

export type JobQueue = {
  /** A job that is already known under this id is answered as it stands. */
  start(id: string, work: Work): Job;
  find(id: string): Job | null;
  /** Null when there is no such job. A finished job stays as it is. */
  cancel(id: string): Job | null;
  /** Cancels what is waiting or working, and waits until it has let go. */
  close(): Promise<void>;
};

/** Thrown by work that finds its photograph not good enough: the job fails and says why. */
export class PhotoRefused extends Error {
  readonly refusal: PhotoRefusal;
  constructor(refusal: PhotoRefusal) {
    super(refusal.sentence);
    this.refusal = refusal;
  }
}

type Entry = { job: Job; work: Work; abort: AbortController };

/** How many finished jobs can still be asked about. */
const remembered = 1000;

export function jobQueue({ atOnce, changed }: { atOnce: number; changed: (job: Job) => void }): JobQueue {
  const entries = new Map<string, Entry>();
  const waiting: Entry[] = [];
  const working = new Set<Promise<void>>();

  const change = (entry: Entry, news: Partial<Job>) => {
    entry.job = { ...entry.job, ...news };
    changed(entry.job);
  };
  const cancel = (entry: Entry) => {
    if (!["waiting", "working"].includes(entry.job.state)) return;
    change(entry, { state: "cancelled" });
    entry.abort.abort();
  };
  const carryOut = async (entry: Entry) => {
    change(entry, { state: "working" });
    const { signal } = entry.abort;
    const progress = (share: number) => {
      if (!signal.aborted) change(entry, { progress: share });
    };
    try {
      await entry.work({ signal, progress });
      if (!signal.aborted) change(entry, { state: "done", progress: 1 });
    } catch (error) {
      // What a cancelled job throws on its way out is no failure.
      if (!signal.aborted)
        change(entry, {
          state: "failed",
          failure: error instanceof Error ? error.message : `${error}`,
          refusal: error instanceof PhotoRefused ? error.refusal : null,
        });
    }
  };
  const next = () => {
    while (working.size < atOnce) {
      const entry = waiting.shift();
      if (!entry) return;
      if (entry.job.state !== "waiting") continue;
      const running = carryOut(entry).then(() => {
        working.delete(running);
        next();
      });
      working.add(running);
    }
  };

  return {
    start(id, work) {
      const known = entries.get(id);
      if (known) {
        // Asked for again after it failed or was cancelled: tried again.
        if (!["failed", "cancelled"].includes(known.job.state)) return known.job;
        entries.delete(id);
      }
      forgetOldest(entries);
      const entry: Entry = {
        job: { id, state: "waiting", progress: 0, failure: null, refusal: null },
        work,
        abort: new AbortController(),
      };
      entries.set(id, entry);
      waiting.push(entry);
      next();
      return entry.job;
    },
    find: (id) => entries.get(id)?.job ?? null,
    cancel(id) {
      const entry = entries.get(id);
      if (!entry) return null;
      cancel(entry);
      return entry.job;
    },
    async close() {
      for (const entry of entries.values()) cancel(entry);
      await Promise.all(working);
    },
  };
}

function forgetOldest(entries: Map<string, Entry>): void {
  for (const [id, { job }] of entries) {
    if (entries.size < remembered) return;
    if (job.state !== "waiting" && job.state !== "working") entries.delete(id);
  }
}
