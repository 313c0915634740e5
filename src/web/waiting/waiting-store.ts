/** Keeps what waits on this device, and tells every open window when that changes. */
import type { Problem } from "../../api/shop.ts";
import { deviceDatabase } from "./device-database.ts";
import { isFull, withReserve } from "./device-reserve.ts";
import type { DroppedItem, WaitingItem, WaitingPhoto } from "./waiting-item.ts";

/** This device has no room left, or its browser keeps nothing (a private window). */
class NotKept extends Error {
  constructor(cause: unknown) {
    super(
      isFull(cause)
        ? "This device's store is full: nothing more can be kept here until what waits is sent."
        : "This browser keeps nothing on this device.",
      { cause },
    );
    this.name = "NotKept";
  }
}

const changes = new EventTarget();
const otherWindows = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("coatwright waiting");
otherWindows?.addEventListener("message", () => changes.dispatchEvent(new Event("change")));

export function onWaitingChange(tell: () => void): () => void {
  changes.addEventListener("change", tell);
  return () => changes.removeEventListener("change", tell);
}

function changed() {
  changes.dispatchEvent(new Event("change"));
  otherWindows?.postMessage("changed");
}

/** What a form that stands open is still waiting for: until it is told, nothing on the page may change under it. */
const awaited = new Set<string>();
export const isAwaited = (id: string): boolean => awaited.has(id);
export const beginAwaiting = (id: string) => awaited.add(id);
export function endAwaiting(id: string) {
  awaited.delete(id);
  changed();
}

/** In the order in which it was written down. A browser that keeps nothing has nothing waiting. */
export async function waitingItems(): Promise<WaitingItem[]> {
  try {
    return await (await deviceDatabase()).getAll("waiting");
  } catch {
    return [];
  }
}

/** A second one with the same id is the first one again: it keeps its place and its time, and is tried again. */
export async function keepWaiting(item: WaitingItem): Promise<void> {
  try {
    await withReserve(() => add(item));
  } catch (failure) {
    throw new NotKept(failure);
  }
  changed();
}

async function add(item: WaitingItem): Promise<void> {
  const transaction = (await deviceDatabase()).transaction("waiting", "readwrite", { durability: "strict" });
  const known = await transaction.store.index("by id").openCursor(item.id);
  if (known) await known.update({ ...known.value, refused: null });
  else await transaction.store.add(item);
  await transaction.done;
}

/** It is in the shop now. */
export const removeWaiting = (id: string) => replace(id, () => null);

/** The shop would not take it, or it is to be tried again (null). */
export const markRefused = (id: string, refused: Problem | null) => replace(id, (item) => ({ ...item, refused }));

/** Mended by hand, to be sent again in its old place. */
export const replaceWaiting = (item: WaitingItem) => replace(item.id, () => item);

async function replace(id: string, by: (item: WaitingItem) => WaitingItem | null): Promise<void> {
  const transaction = (await deviceDatabase()).transaction("waiting", "readwrite", { durability: "strict" });
  const cursor = await transaction.store.index("by id").openCursor(id);
  const next = cursor && by(cursor.value);
  if (next) await cursor.update(next);
  else await cursor?.delete();
  await transaction.done;
  changed();
}

/** Thrown away by hand: it leaves the queue, and this device remembers what it was and why. */
export async function dropWaiting(item: WaitingItem, why: string): Promise<void> {
  const transaction = (await deviceDatabase()).transaction(["waiting", "dropped"], "readwrite");
  const key = await transaction.objectStore("waiting").index("by id").getKey(item.id);
  if (key !== undefined) {
    await transaction.objectStore("waiting").delete(key);
    await transaction.objectStore("dropped").add({ item, why, droppedAt: new Date().toISOString() });
  }
  await transaction.done;
  changed();
}

export async function droppedItems(): Promise<DroppedItem[]> {
  try {
    return await (await deviceDatabase()).getAll("dropped");
  } catch {
    return [];
  }
}

/** The photograph that waits for this inspection. */
export async function waitingPhotoOf(inspection: string): Promise<WaitingPhoto | null> {
  const photos = (await waitingItems()).filter((item) => item.kind === "photo");
  return photos.find((item) => item.inspection === inspection) ?? null;
}
