/** A trial as the shop last told it, with what this device wrote down since and has not sent yet. */
import type { TrialDocument } from "../../api/shop.ts";
import type { WaitingItem } from "./waiting-item.ts";

/** What the shop refused is not part of the record: it waits for a hand. */
export function withWaiting(trial: TrialDocument, waiting: readonly WaitingItem[]): TrialDocument {
  const known = new Set(trial.observations.map(({ id }) => id));
  const added = waiting.flatMap((item) =>
    item.kind === "observation" && item.trial === trial.id && item.refused === null && !known.has(item.id)
      ? [{ ...item.observation, recordedAt: new Date(Date.parse(item.writtenAt) + (item.skewMs ?? 0)).toISOString() }]
      : [],
  );
  return added.length === 0 ? trial : { ...trial, observations: [...trial.observations, ...added] };
}
