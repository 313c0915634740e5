/** What only the owner writes into a trial, though it is written as observations are: its plan, and that it is closed. */
import type { Observation } from "../../core/trial/trial-record.ts";
import type { DeviceIdentity } from "./access-guard.ts";

/** The route would let the device in; this one act it may not do. */
export class NotForThisDevice extends Error {
  readonly statusCode = 403;
}

const ownersKinds: readonly Observation["body"]["kind"][] = ["plan", "unblinding"];

export function requireOwnersAct(
  device: DeviceIdentity | null,
  sent: Observation,
  earlier: readonly Observation[],
): void {
  if (device?.role === "owner") return;
  const corrected = earlier.find(({ id }) => id === sent.corrects?.id);
  for (const { body } of corrected ? [sent, corrected] : [sent])
    if (ownersKinds.includes(body.kind))
      throw new NotForThisDevice("a trial's plan and its end are the owner's; this is no owner's device");
}
