/** How much room this device's browser has left for what waits: said before a photograph is lost, not after. */
import { useEffect, useState, useSyncExternalStore } from "react";
import { keepReserve, onReserveChange, reserveIsSpent } from "./device-reserve.ts";
import { onWaitingChange } from "./waiting-store.ts";

export type DeviceRoom = { usedBytes: number; freeBytes: number };

/** A photograph of a phone's camera seldom exceeds this; with less than three of them free it is said. */
const photographBytes = 12_000_000;

/** What the browser tells may be more than there is: what the reserve met counts as well. */
export function useIsNearlyFull(): boolean {
  const room = useDeviceRoom();
  const isSpent = useSyncExternalStore(onReserveChange, reserveIsSpent);
  return isSpent || (room !== null && room.freeBytes < 3 * photographBytes);
}

/** Null where the browser does not tell (no secure page). */
async function deviceRoom(): Promise<DeviceRoom | null> {
  const { usage, quota } = (await navigator.storage?.estimate()) ?? {};
  return usage === undefined || quota === undefined ? null : { usedBytes: usage, freeBytes: quota - usage };
}

/** A browser short of room throws away first what nobody asked it to keep. */
export async function askToKeep(): Promise<void> {
  void keepReserve();
  if (!(await navigator.storage?.persisted())) await navigator.storage?.persist();
}

export function useDeviceRoom(): DeviceRoom | null {
  const [room, setRoom] = useState<DeviceRoom | null>(null);
  useEffect(() => {
    const look = () => void deviceRoom().then(setRoom);
    look();
    return onWaitingChange(look);
  }, []);
  return room;
}
