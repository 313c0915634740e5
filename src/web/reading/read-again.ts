/** Reads photographs again by the trial's way of now; each new number corrects its look at once, so that a stop loses nothing. */
import type { NewObservation } from "../../api/observation.ts";
import type { Measurement, ShopModelName } from "../../api/photo.ts";
import { endOfJob } from "../inspect/end-of-job.ts";
import { startMeasuring } from "../inspect/measuring.ts";
import { newId } from "../shop/new-id.ts";
import type { OlderReading } from "./older-readings.ts";

export type ReadAgain = {
  older: readonly OlderReading[];
  shopModel: ShopModelName | null;
  by: string;
  /** The reason that stands beside the older number. */
  why: string;
  write: (observation: NewObservation) => Promise<unknown>;
  signal: AbortSignal;
  /** How many are behind it, and of the one before it, where it was not rated, why. */
  progress: (done: number, refused: { coupon: string; why: string } | null) => void;
};

export async function readAgain({ older, shopModel, signal, progress, write, ...said }: ReadAgain): Promise<void> {
  for (const [at, one] of older.entries()) {
    signal.throwIfAborted();
    const { id } = await startMeasuring(requestAgain(one.measurement, shopModel));
    const end = await endOfJob(id, { signal, progress: () => undefined });
    if (end.is === "measured") await write(readLook(one, end.measurement, said));
    const why = end.is === "refused" || end.is === "failed" ? (end.why ?? "") : "";
    progress(at + 1, end.is === "measured" ? null : { coupon: one.look.body.coupon, why });
  }
}

/** As it was asked for, by the other model: corners, left-out places and first photograph stay. */
export function requestAgain({ request }: Measurement, shopModel: ShopModelName | null) {
  const { shopModel: _, ...same } = request;
  return { ...same, id: newId(), ...(shopModel ? { shopModel } : {}) };
}

/** The same look with the new number; whether it was blind does not change: nobody looked. */
export function readLook({ look }: OlderReading, measured: Measurement, said: { by: string; why: string }) {
  const { rustedPercent, edgePercent, id: measurement } = measured;
  return {
    ...{ id: newId(), by: said.by, corrects: { id: look.id, why: said.why } },
    body: { ...look.body, rustedPercent, edgePercent, measurement },
  } satisfies NewObservation;
}
