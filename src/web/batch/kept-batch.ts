/** A trial's batch as this device keeps it, so that a page opened anew goes on: names and standing; the photographs wait in the queue. */
import * as z from "zod/mini";
import { contentHash, photo } from "../../api/photo.ts";
import { forget, keep, readKept } from "../keep/kept.ts";
import type { BatchRow } from "./batch-rows.ts";

const keptRow = z.strictObject({
  id: z.uuid(),
  name: z.string(),
  bytes: z.number(),
  // Left out by pages from before photographs waited in the queue.
  hash: z._default(z.nullable(contentHash), null),
  isAsked: z._default(z.boolean(), false),
  photo: z.nullable(photo),
  job: z.nullable(z.uuid()),
  coupon: z.nullable(z.string()),
  isLeftOut: z.boolean(),
  isRight: z.boolean(),
  isWritten: z.boolean(),
  date: z.nullable(z.iso.date()),
  look: z.uuid(),
  /** Not good enough, in words: the shop does not keep why. */
  refused: z.nullable(z.string()),
});
const keptBatch = z.strictObject({ face: z.enum(["front", "back"]), date: z.iso.date(), rows: z.array(keptRow) });

export type Batch = { face: "front" | "back"; date: string; rows: BatchRow[] };

const keyOf = (trial: string) => `many photographs ${trial}`;

/** Null where nothing is kept. Rows come back as chosen: what the shop has of them, it is asked for. */
export function readBatch(trial: string): Batch | null {
  const kept = keptBatch.safeParse(readKept(keyOf(trial)));
  if (!kept.success) return null;
  const rows = kept.data.rows.map(
    ({ refused, ...row }): BatchRow => ({
      ...row,
      file: null,
      state: refused === null ? { is: "chosen" } : { is: "refused", why: refused },
    }),
  );
  return { ...kept.data, rows };
}

/** Nothing is left to be kept once every look is written down. */
export function keepBatch(trial: string, { face, date, rows }: Batch): void {
  if (rows.every(({ isWritten, isLeftOut }) => isWritten || isLeftOut)) {
    forget(keyOf(trial));
    return;
  }
  const kept = rows.map(({ file: _, state, ...row }) => ({
    ...row,
    refused: state.is === "refused" ? state.why : null,
  }));
  keep(keyOf(trial), { face, date, rows: kept });
}
