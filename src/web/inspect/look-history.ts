/** What was written down of one look, from the first wording to the one that stands. */
import type { Look, Observation } from "../../core/trial/trial-record.ts";

export type Wording = Observation & { body: Look };

/** `id` is the standing observation; wordings that it replaced come before it. */
export function lookHistory(observations: readonly Observation[], id: string): Wording[] {
  const one = observations.find((observation) => observation.id === id);
  if (one === undefined) return [];
  const earlier = one.corrects === null ? [] : lookHistory(observations, one.corrects.id);
  return isLook(one) ? [...earlier, one] : earlier;
}

const isLook = (observation: Observation): observation is Wording => observation.body.kind === "look";
