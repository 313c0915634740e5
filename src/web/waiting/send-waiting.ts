/** The one place from which this device sends what it recorded: kept first, then sent, whether or not anybody waits. */
import { type NewObservation, newObservation } from "../../api/observation.ts";
import { sendPhoto } from "../inspect/send-photo.ts";
import { json, NoAnswer, Refused, tell } from "../shop/ask.ts";
import { clockSkewMs } from "../shop/clock-skew.ts";
import { onShopBack } from "../shop/contact.ts";
import { newId } from "../shop/new-id.ts";
import { correctByShop, correctedLook, goOnCorrected } from "./deliver-correction.ts";
import { readByShop } from "./deliver-reading.ts";
import { askToKeep } from "./device-room.ts";
import { nameWaitingPhotos } from "./name-waiting-photos.ts";
import { keepArrival, photoArrived, photoIsAt } from "./photo-progress.ts";
import { sendInOrder } from "./send-in-order.ts";
import { goesInPieces, sendInPieces } from "./send-in-pieces.ts";
import type { WaitingCorrection, WaitingItem, WaitingMessage, WaitingPhoto, WaitingReading } from "./waiting-item.ts";
import {
  beginAwaiting,
  endAwaiting,
  keepWaiting,
  markRefused,
  removeWaiting,
  replaceWaiting,
  waitingItems,
  waitingPhotoOf,
} from "./waiting-store.ts";

/** What became of something that was written down. */
export type Written = "stored" | "waiting";

/** How long a form waits for the shop before it says "kept on this device". */
const patienceMs = 10_000;
/** How often what waits is tried again while nothing tells that the shop is back. */
const tryAgainMs = 20_000;

/** A form that was told closes itself by then; only after that may the page change under it. */
const formClosesMs = 50;
/** A request that hangs that long will not be answered. */
const hangsMs = 30_000;

type Watcher = { stored: () => void; refused: (error: Refused) => void; away: () => void };
const watchers = new Map<string, Watcher>();
let sending: Promise<void> | null = null;
/** Something was added while a round went on, perhaps at its very end. */
let addedMeanwhile = false;

/** Writes an observation down. Refused, it is thrown for the form that stands open to show; silence only makes it wait. */
export async function record(trial: string, sent: NewObservation): Promise<Written> {
  const observation = newObservation.parse(sent);
  const kept = { id: observation.id, ...writtenNow(), refused: null };
  return keepAndSend({ ...kept, kind: "observation", trial, observation });
}

/** Anything else for the shop. Its id must be in the body, or its repeat change nothing: silence may send it twice. */
export function recordMessage(message: Pick<WaitingMessage, "id" | "path" | "body" | "words">): Promise<Written> {
  return keepAndSend({ ...message, ...writtenNow(), refused: null, kind: "message" });
}

function writtenNow(): { writtenAt: string; skewMs?: number } {
  const skewMs = clockSkewMs();
  return { writtenAt: new Date().toISOString(), ...(skewMs !== null && { skewMs }) };
}

/** The photograph of an inspection; a second one replaces the first, if that still waits. */
export async function recordPhoto(inspection: string, file: Blob): Promise<Written> {
  const earlier = await waitingPhotoOf(inspection);
  if (earlier) await removeWaiting(earlier.id);
  const kept = { id: newId(), ...writtenNow(), refused: null };
  return keepAndSend({ ...kept, kind: "photo", inspection, file });
}

export const namedPhoto = (hash: string): string => `photograph ${hash}`;

/** A photograph that nobody's inspection waits for; the same picture twice is one. */
export async function recordNamedPhoto(file: Blob, named: { words: string; hash: string }): Promise<Written> {
  const inspection = namedPhoto(named.hash);
  const earlier = await waitingPhotoOf(inspection);
  if (earlier) return sendNow(earlier);
  return keepAndSend({ ...{ id: newId(), ...writtenNow(), refused: null }, kind: "photo", inspection, file, named });
}

/** One of many photographs at once: kept and sent by itself, while the next one is kept. */
export async function recordOneOfMany(file: Blob, { words, hash }: { words: string; hash: string }): Promise<void> {
  const inspection = namedPhoto(hash);
  const named = { words, hash, isOfMany: true as const };
  const earlier = await waitingPhotoOf(inspection);
  if (earlier) return replaceWaiting({ ...earlier, named });
  const kept = { id: newId(), ...writtenNow(), refused: null };
  await keepOrDeliver({ ...kept, kind: "photo", inspection, file, named });
  void sendWaiting();
}

/** What is read once the shop has the photographs. They are called by their coupon from now on. No form waits for it. */
export async function recordReading(asked: Omit<WaitingReading, "kind" | "writtenAt" | "skewMs" | "refused">) {
  await keepWaiting({ ...asked, ...writtenNow(), refused: null, kind: "reading" });
  await nameWaitingPhotos(asked.reading);
  void askToKeep();
  void sendWaiting();
}

/** Strokes that nobody could measure with yet. The inspection goes on once the shop has. */
export async function recordCorrection(asked: Omit<WaitingCorrection, "kind" | "writtenAt" | "skewMs" | "refused">) {
  await keepWaiting({ ...asked, ...writtenNow(), refused: null, kind: "correction" });
  void askToKeep();
  void sendWaiting();
}

/** One that waits already is tried now, with somebody looking on. */
export async function sendNow(item: WaitingItem): Promise<Written> {
  await markRefused(item.id, null);
  return watched(item);
}

async function keepAndSend(item: WaitingItem): Promise<Written> {
  beginAwaiting(item.id);
  const outcome = await keepOrDeliver(item).catch((failure: unknown) => {
    endAwaiting(item.id);
    throw failure;
  });
  if (outcome === "waiting") return watched(item);
  endAwaiting(item.id);
  return outcome;
}

/** Where nothing can be kept, it is stored at once or said to be lost, never quietly dropped. */
async function keepOrDeliver(item: WaitingItem): Promise<Written> {
  try {
    await keepWaiting(item);
  } catch (notKept) {
    await deliver(item).catch((error: unknown) => {
      throw error instanceof NoAnswer ? notKept : error;
    });
    return "stored";
  }
  void askToKeep();
  return "waiting";
}

function watched(item: WaitingItem): Promise<Written> {
  const { id } = item;
  const showsProgress = item.kind === "photo" && !item.named;
  return new Promise((resolve, reject) => {
    const settle = (done: () => void) => {
      clearTimeout(timer);
      watchers.delete(id);
      done();
      setTimeout(() => endAwaiting(id), formClosesMs);
    };
    // The photograph of an inspection says how far it is; the rest would leave its form standing.
    const timer = showsProgress ? undefined : setTimeout(() => settle(() => resolve("waiting")), patienceMs);
    watchers.set(id, {
      stored: () => settle(() => resolve("stored")),
      refused: (error) => settle(() => reject(error)),
      away: () => settle(() => resolve("waiting")),
    });
    void sendWaiting();
  });
}

/** Sends what waits, unless that goes on already; then whatever was added meanwhile is sent in the same round. */
export function sendWaiting(): Promise<void> {
  if (sending) addedMeanwhile = true;
  sending ??= sendAll().finally(() => {
    sending = null;
    const goOn = addedMeanwhile || watchers.size > 0;
    addedMeanwhile = false;
    if (goOn) void sendWaiting();
  });
  return sending;
}

async function sendAll(): Promise<void> {
  const outcome = await oneAtATime(() =>
    sendInOrder({
      items: waitingItems,
      deliver,
      stored: async ({ id }) => {
        await removeWaiting(id);
        watchers.get(id)?.stored();
      },
      refused: async ({ id }, problem) => {
        const watcher = watchers.get(id);
        // The form that sent it shows what was refused and keeps what was typed; nobody there, the item keeps it.
        await (watcher ? removeWaiting(id) : markRefused(id, problem));
        watcher?.refused(new Refused(problem));
      },
    }),
  );
  if (outcome === "away") for (const watcher of [...watchers.values()]) watcher.away();
}

/** Two windows of one device take turns. Without TLS a browser has no such lock; the shop then drops the repeat. */
function oneAtATime<Result>(act: () => Promise<Result>): Promise<Result> {
  return "locks" in navigator ? navigator.locks.request("coatwright waiting", act) : act();
}

async function deliver(item: WaitingItem): Promise<void> {
  if (item.kind === "photo") return deliverPhoto(item);
  if (item.kind === "message")
    return tell(item.path, { ...json("POST", item.body), signal: AbortSignal.timeout(hangsMs) });
  if (item.kind === "correction") return deliverCorrection(item);
  const observation = item.kind === "reading" ? await readByShop(item) : item.observation;
  return deliverObservation(item.trial, observation, item);
}

async function deliverCorrection(item: WaitingCorrection): Promise<void> {
  const measured = await correctByShop(item);
  goOnCorrected(item);
  if (item.look) await deliverObservation(item.look.trial, correctedLook(item, item.look, measured), item);
}

async function deliverObservation(trial: string, observation: NewObservation, item: WaitingItem): Promise<void> {
  const { writtenAt } = item;
  // Learnt only now, it is still better than none.
  const skewMs = item.skewMs ?? clockSkewMs();
  const clock = skewMs === null ? {} : { clock: { deviceClock: writtenAt, skewMs } };
  const request = json("POST", { ...observation, ...clock });
  await tell(`/api/trials/${trial}/observations`, { ...request, signal: AbortSignal.timeout(hangsMs) });
}

let stopPhoto: AbortController | null = null;

async function deliverPhoto({ inspection, file, named }: WaitingPhoto): Promise<void> {
  stopPhoto = new AbortController();
  photoIsAt(inspection, 0);
  try {
    const progress = (share: number) => photoIsAt(inspection, share);
    const send = goesInPieces(file) ? sendInPieces : sendPhoto;
    const photo = await send({ file, progress, signal: stopPhoto.signal });
    if (!named) photoArrived(inspection, photo);
    if (named?.isOfMany) keepArrival(photo);
  } finally {
    photoIsAt(inspection, null);
  }
}

/** The photograph that is on its way stops; it goes on waiting, and is tried again later. */
export const stopSendingPhoto = () => stopPhoto?.abort();

/** Sends by itself: now, when the network or the shop comes back, when the page is looked at again, and now and then. */
export function keepSending(): () => void {
  const send = () => void sendWaiting();
  const seen = () => document.visibilityState === "visible" && send();
  const stopHearing = onShopBack(send);
  const timer = setInterval(send, tryAgainMs);
  addEventListener("online", send);
  document.addEventListener("visibilitychange", seen);
  send();
  return () => {
    stopHearing();
    clearInterval(timer);
    removeEventListener("online", send);
    document.removeEventListener("visibilitychange", seen);
  };
}
