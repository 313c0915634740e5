/** What waits on this device, as it changes, without what a form is just sending. One reading of the store serves every part of the page that asks. */
import { useSyncExternalStore } from "react";
import type { WaitingItem } from "./waiting-item.ts";
import { isAwaited, onWaitingChange, waitingItems } from "./waiting-store.ts";

let known: readonly WaitingItem[] = [];
let isRead = false;
const told = new Set<() => void>();
let stopHearing: (() => void) | null = null;

async function readAgain() {
  const items = (await waitingItems()).filter(({ id }) => !isAwaited(id));
  // Most readings of an empty queue find it empty: nothing needs to be drawn again.
  if (isRead && items.length === 0 && known.length === 0) return;
  isRead = true;
  known = items;
  for (const tell of told) tell();
}

function subscribe(tell: () => void): () => void {
  told.add(tell);
  stopHearing ??= onWaitingChange(() => void readAgain());
  if (told.size === 1) void readAgain();
  return () => {
    told.delete(tell);
    if (told.size > 0) return;
    stopHearing?.();
    stopHearing = null;
  };
}

export const useWaiting = (): readonly WaitingItem[] => useSyncExternalStore(subscribe, () => known);

/** Until then nobody knows whether anything waits. */
export const useWaitingIsRead = (): boolean => useSyncExternalStore(subscribe, () => isRead);
