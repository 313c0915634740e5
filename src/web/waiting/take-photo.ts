/** A photograph of anything but an inspection: kept on this device, sent, and usable before the shop has it. */
import { type Photo, photo } from "../../api/photo.ts";
import { contentHashOf } from "./content-hash.ts";
import { keepPicture } from "./picture-of.ts";
import { cornersAsked } from "./reading-corners.ts";
import { recordNamedPhoto, type Written } from "./send-waiting.ts";
import { removeWaiting, waitingItems } from "./waiting-store.ts";

export async function takePhoto(file: Blob, words: string): Promise<{ photo: Photo; written: Written }> {
  const taken = await asInShop(file);
  keepPicture(taken.hash, file);
  return { photo: taken, written: await recordNamedPhoto(file, { words, hash: taken.hash }) };
}

/** Taken anew before it was sent, the one before need not be sent; unless something that waits asks to read it. */
export async function withdrawPhoto(hash: string): Promise<void> {
  const items = await waitingItems();
  if (items.some((item) => item.kind === "reading" && cornersAsked(item.reading).some(({ photo }) => photo === hash)))
    return;
  const photo = items.find((item) => item.kind === "photo" && item.named?.hash === hash && !item.named.isOfMany);
  if (photo) await removeWaiting(photo.id);
}

/** As the shop will describe it: its name is its content, its size that of the upright picture. */
async function asInShop(file: Blob): Promise<Photo> {
  const hash = await contentHashOf(file);
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw new Error("This file cannot be opened as a picture on this device. Choose a JPEG, PNG or WebP.");
  });
  const { width: widthPx, height: heightPx } = picture;
  picture.close();
  return photo.parse({ hash, mediaType: file.type, bytes: file.size, widthPx, heightPx, takenAt: null });
}
