/**
 * Room set aside on this device, so that a full store is said while photographs still fit: browsers tell a site no longer how
 * much is really free. What does not fit takes the reserve's place, and from then on it is said that there is hardly any room.
 */
import { deviceDatabase } from "./device-database.ts";

/** Three large photographs of a phone's camera. */
const reserveBytes = 36_000_000;
const chunk = 1_000_000;
const key = "room";

const changes = new EventTarget();
let isSpent = false;

/** There was no room for the reserve, or it was used up. */
export const reserveIsSpent = (): boolean => isSpent;

export function onReserveChange(tell: () => void): () => void {
  changes.addEventListener("change", tell);
  return () => changes.removeEventListener("change", tell);
}

function become(spent: boolean) {
  if (isSpent === spent) return;
  isSpent = spent;
  changes.dispatchEvent(new Event("change"));
}

/** Sets the room aside, where that was not done yet. One attempt at a time. */
let trying: Promise<void> | null = null;
export function keepReserve(): Promise<void> {
  trying ??= tryToKeep().finally(() => {
    trying = null;
  });
  return trying;
}

async function tryToKeep(): Promise<void> {
  try {
    const database = await deviceDatabase();
    if ((await database.count("reserve")) === 0) {
      const zeros = new Uint8Array(chunk);
      await database.put("reserve", new Blob(Array.from({ length: reserveBytes / chunk }, () => zeros)), key);
    }
    become(false);
  } catch (failure) {
    // A browser that keeps nothing is told of by what cannot be kept.
    if (isFull(failure)) become(true);
  }
}

/** Carries out what needs room; where there is none, once more in the reserve's place. */
export async function withReserve<Result>(act: () => Promise<Result>): Promise<Result> {
  try {
    return await act();
  } catch (failure) {
    const database = isFull(failure) ? await deviceDatabase() : null;
    if (!database || (await database.count("reserve")) === 0) throw failure;
    await database.delete("reserve", key);
    become(true);
    return act();
  }
}

export const isFull = (failure: unknown): boolean =>
  failure instanceof DOMException && failure.name === "QuotaExceededError";
