/** Where a picture is to be had: from this device while the shop may not have it yet, else from the shop. */
import { useEffect, useState } from "react";
import { pictureUrl } from "../inspect/measuring.ts";
import { useWaiting } from "./use-waiting.ts";

/** Of photographs taken since the page was opened. */
const taken = new Map<string, string>();

export function keepPicture(hash: string, file: Blob): void {
  if (!taken.has(hash)) taken.set(hash, URL.createObjectURL(file));
}

export function usePictureOf(hash: string): string {
  const waiting = useWaiting().find((item) => item.kind === "photo" && item.named?.hash === hash);
  const [, seen] = useState(false);
  useEffect(() => {
    if (waiting?.kind !== "photo") return;
    keepPicture(hash, waiting.file);
    seen(true);
  }, [hash, waiting]);
  return taken.get(hash) ?? pictureUrl(hash, 1280);
}
