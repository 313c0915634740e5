/**
 * What waits, as one file: a line of JSON that says what there is, then the photographs byte by byte. It carries the ids,
 * so that what is taken in elsewhere and also sent from here is stored once.
 */
import * as z from "zod/mini";
import { colourReadingRequest } from "../../api/finish-colour.ts";
import { finishColour, newObservation, percentLook, tapeTest } from "../../api/observation.ts";
import { contentHash, handCorrection } from "../../api/photo.ts";
import { problem } from "../../api/shop.ts";
import { tapeReadingRequest } from "../../api/tape-photo.ts";
import { photoLimitBytes } from "../../api/upload.ts";
import { tapePartings } from "../../core/trial/tape-test.ts";
import { waitingText } from "../text/waiting.ts";
import { contentHashOf } from "./content-hash.ts";
import type { WaitingItem } from "./waiting-item.ts";

const kept = {
  id: z.uuid(),
  writtenAt: z.iso.datetime({ offset: true }),
  skewMs: z.exactOptional(z.number()),
  refused: z.nullable(problem),
};
const words = z.string().check(z.minLength(1), z.maxLength(1000));
const observation = z.strictObject({
  ...kept,
  kind: z.literal("observation"),
  trial: z.uuid(),
  observation: newObservation,
});
const photo = z.strictObject({
  ...kept,
  kind: z.literal("photo"),
  inspection: z.string().check(z.maxLength(1000)),
  named: z.exactOptional(z.strictObject({ words, hash: contentHash, isOfMany: z.exactOptional(z.literal(true)) })),
  file: z.strictObject({
    type: z.string().check(z.maxLength(100)),
    bytes: z.int().check(z.minimum(1), z.maximum(photoLimitBytes)),
    sha256: contentHash,
  }),
});
const laterReading = z.discriminatedUnion("of", [
  z.strictObject({
    of: z.literal("finish colour"),
    request: colourReadingRequest,
    body: z.omit(finishColour, { reading: true }),
  }),
  z.strictObject({
    of: z.literal("tape test"),
    request: tapeReadingRequest,
    body: tapeTest,
    counts: z.enum(["photo", "eye"]),
    parted: z.enum(tapePartings),
  }),
]);
const reading = z.strictObject({
  ...kept,
  ...{ kind: z.literal("reading"), trial: z.uuid(), by: newObservation.shape.by },
  ...{ corrects: newObservation.shape.corrects, reading: laterReading },
});
const { kind, coupon, face, when, blind } = percentLook.shape;
const correction = z.strictObject({
  ...{ ...kept, kind: z.literal("correction"), coupon: words, measurement: z.uuid(), correction: handCorrection },
  inspection: z.nullable(z.string().check(z.maxLength(1000))),
  look: z.nullable(
    z.strictObject({
      ...{ id: z.uuid(), trial: z.uuid(), corrects: z.uuid() },
      body: z.strictObject({ kind, coupon, face, when, blind }),
    }),
  ),
});
/** Only what this page itself lets wait: a file from a stranger must not reach anything else of the shop. */
const message = z.strictObject({
  ...{ ...kept, kind: z.literal("message"), body: z.unknown(), words },
  path: z.string().check(z.regex(/^\/api\/(trials|eye-tests|sites\/[^/?#]+\/readings)$/)),
});
const index = z.strictObject({
  holds: z.literal("what waits to be sent to a Coatwright shop"),
  version: z.literal(1),
  items: z
    .array(z.discriminatedUnion("kind", [observation, photo, reading, correction, message]))
    .check(z.maxLength(10_000)),
});

const longestIndexBytes = 50_000_000;

export async function waitingFile(waiting: readonly WaitingItem[]): Promise<Blob> {
  const items = await Promise.all(
    waiting.map(async (item) => {
      if (item.kind !== "photo") return item;
      const { type, size: bytes } = item.file;
      return { ...item, file: { type, bytes, sha256: await contentHashOf(item.file) } };
    }),
  );
  const files = waiting.flatMap((item) => (item.kind === "photo" ? [item.file] : []));
  const first = JSON.stringify({ holds: "what waits to be sent to a Coatwright shop", version: 1, items });
  return new Blob([first, "\n", ...files], { type: "application/octet-stream" });
}

/** Refuses what is no such file, or not all of one, in words: nothing of it is taken in then. */
export async function itemsOfFile(file: Blob): Promise<WaitingItem[]> {
  const { text, end } = await firstLine(file);
  const read = index.safeParse(answered(text));
  if (!read.success) throw new Error(waitingText.noSuchFile);
  let at = end;
  const items: WaitingItem[] = [];
  for (const item of read.data.items) {
    if (item.kind !== "photo") {
      items.push(item);
      continue;
    }
    const { type, bytes, sha256 } = item.file;
    const picture = new Blob([await file.slice(at, at + bytes).arrayBuffer()], { type });
    at += bytes;
    if (picture.size !== bytes || (await contentHashOf(picture)) !== sha256) throw new Error(waitingText.brokenFile);
    items.push({ ...item, file: picture });
  }
  if (at !== file.size) throw new Error(waitingText.brokenFile);
  return items;
}

async function firstLine(file: Blob): Promise<{ text: string; end: number }> {
  const bytes = new Uint8Array(await file.slice(0, longestIndexBytes).arrayBuffer());
  const end = bytes.indexOf(10);
  if (end < 0) throw new Error(waitingText.noSuchFile);
  return { text: new TextDecoder().decode(bytes.subarray(0, end)), end: end + 1 };
}

function answered(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
