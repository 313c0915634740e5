/** A photograph may be taken before its coupon is chosen; once it is known, those that still wait are called by it. */
import { waitingText } from "../text/waiting.ts";
import type { LaterReading } from "./waiting-item.ts";
import { replaceWaiting, waitingItems } from "./waiting-store.ts";

export async function nameWaitingPhotos(reading: LaterReading): Promise<void> {
  const names = namesOf(reading);
  for (const item of await waitingItems()) {
    const words = item.kind === "photo" && item.named ? names.get(item.named.hash) : undefined;
    if (item.kind === "photo" && item.named && words)
      await replaceWaiting({ ...item, named: { ...item.named, words } });
  }
}

function namesOf(reading: LaterReading): Map<string, string> {
  const { coupon } = reading.body;
  if (reading.of === "finish colour") return new Map([[reading.request.photo, waitingText.colourPhoto(coupon)]]);
  const { before, after } = reading.request;
  return new Map([
    [before.photo, waitingText.tapePhoto("before", coupon)],
    [after.photo, waitingText.tapePhoto("after", coupon)],
  ]);
}
