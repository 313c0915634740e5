/** What a device says of when it wrote something down, by the shop's clock. */
import type { NewObservation } from "../api/observation.ts";
import type { Observation } from "../core/trial/trial-record.ts";
import type { DeviceIdentity } from "./sharing/access-guard.ts";
import { thisMachine } from "./sharing/access-guard.ts";

/** Nothing was written down after it arrived here, whatever a device's clock says. */
export function takenIn(sent: NewObservation, device: DeviceIdentity | null, now: Date): Observation {
  const { clock, ...said } = sent;
  return {
    ...said,
    recordedAt: now.toISOString(),
    ...(clock && { written: { at: byShopClock(clock, now), ...clock } }),
    ...(device && device.id !== thisMachine.id && { device: device.id }),
  };
}

function byShopClock({ deviceClock, skewMs }: NonNullable<NewObservation["clock"]>, now: Date): string {
  return new Date(Math.min(Date.parse(deviceClock) + skewMs, now.getTime())).toISOString();
}
