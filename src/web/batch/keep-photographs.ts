/** The photographs of a batch wait in the queue of this device like all others; here its rows and the queue learn of each other. */
import { isHeicFile } from "../inspect/heic-advice.tsx";
import { batchText } from "../text/batch.ts";
import { contentHashOf } from "../waiting/content-hash.ts";
import { keptArrival } from "../waiting/photo-progress.ts";
import { refusalWords } from "../waiting/refusal-words.ts";
import { namedPhoto, recordOneOfMany } from "../waiting/send-waiting.ts";
import { removeWaiting, waitingItems, waitingPhotoOf } from "../waiting/waiting-store.ts";
import type { BatchRow } from "./batch-rows.ts";

/** What became of a file that was chosen: in the queue, or why not. */
export async function keptRow({ file, coupon, name }: BatchRow): Promise<Partial<BatchRow>> {
  if (file === null) return {};
  if (await isHeicFile(file)) return { file: null, state: { is: "refused", why: batchText.heic } };
  try {
    const hash = await contentHashOf(file);
    await recordOneOfMany(file, { words: batchText.waitingWords(coupon, name), hash });
    return { hash, file: null, state: { is: "chosen" } };
  } catch (failure) {
    return { state: { is: "failed", why: failure instanceof Error ? failure.message : String(failure) } };
  }
}

/** What the queue and the shop have done with the rows since: by row, only what is new. */
export async function newsOf(rows: readonly BatchRow[]): Promise<Map<string, Partial<BatchRow>>> {
  const items = new Map(
    (await waitingItems()).flatMap((item) => (item.kind === "photo" && item.named ? [[item.named.hash, item]] : [])),
  );
  const news = new Map<string, Partial<BatchRow>>();
  for (const { id, hash, photo, state, isLeftOut } of rows) {
    if (hash === null || photo !== null || isLeftOut) continue;
    const item = items.get(hash);
    // Kept before the queue lets go of it: asked the other way round it could be missed.
    const arrived = keptArrival(hash);
    if (arrived) news.set(id, { photo: arrived, state: { is: "chosen" } });
    else if (!item) news.set(id, { hash: null });
    else if (item.refused && state.is !== "refused")
      news.set(id, { state: { is: "refused", why: refusalWords(item.refused) } });
  }
  return news;
}

/** Left out before it was sent, it is not sent; the row has its file again, in case it is taken in again. */
export async function takenOutOfQueue(hash: string): Promise<Partial<BatchRow>> {
  const item = await waitingPhotoOf(namedPhoto(hash));
  if (!item) return {};
  await removeWaiting(item.id);
  return { file: item.file, hash: null };
}
