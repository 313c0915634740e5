/** Waits for the work on a photograph to end, whatever its end is. */
import { job, type Measurement, measurement } from "../../api/photo.ts";
import { ask, Refused } from "../shop/ask.ts";
import { stopJob } from "./measuring.ts";

const askAgainMs = 300;

export type EndOfJob =
  | { is: "measured"; measurement: Measurement }
  /** Not good enough to be rated, in words. */
  | { is: "refused"; why: string }
  /** `why` null: it was stopped. */
  | { is: "failed"; why: string | null }
  /** The shop knows nothing of it, as after it was started anew in the middle of it. */
  | { is: "unknown" };

type Waiting = { signal: AbortSignal; progress: (share: number) => void };

/** Stops the work and throws where the signal says so. */
export async function endOfJob(id: string, { signal, progress }: Waiting): Promise<EndOfJob> {
  for (;;) {
    if (signal.aborted) {
      await stopJob(id).catch(() => null);
      signal.throwIfAborted();
    }
    const asked = await ask(job, `/api/jobs/${id}`).catch(orNull);
    if (asked === null) return { is: "unknown" };
    if (asked.refusal) return { is: "refused", why: asked.refusal.sentence };
    if (asked.state === "done")
      return { is: "measured", measurement: await ask(measurement, `/api/measurements/${id}`) };
    if (asked.state === "failed" || asked.state === "cancelled") return { is: "failed", why: asked.failure };
    progress(asked.progress);
    await new Promise((resolve) => setTimeout(resolve, askAgainMs));
  }
}

function orNull(error: unknown): null {
  if (error instanceof Refused && error.problem.status === 404) return null;
  throw error;
}
