/** Where a picture is to be had: from this device while the shop may not have it yet, else from the shop. */
import { useEffect, useState } from "react";
import { pictureUrl } from "../inspect/measuring.ts";
import { pictureShelf } from "./picture-shelf.ts";
import { useWaiting } from "./use-waiting.ts";

const taken = pictureShelf({
  address: (file) => URL.createObjectURL(file),
  letGo: (address) => URL.revokeObjectURL(address),
});

/** Of a photograph just taken: shown before the queue or the shop tells of it. */
export const keepPicture = (hash: string, file: Blob): void => taken.put(hash, file);

export function usePictureOf(hash: string): string {
  const waiting = useWaiting().find((item) => item.kind === "photo" && item.named?.hash === hash);
  const [, seen] = useState(false);
  useEffect(() => taken.hold(hash), [hash]);
  useEffect(() => {
    if (waiting?.kind !== "photo") return;
    taken.put(hash, waiting.file);
    seen(true);
  }, [hash, waiting]);
  return taken.addressOf(hash) ?? pictureUrl(hash, 1280);
}
