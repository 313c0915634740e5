/** The two kinds of photo job: what is handed to a measuring thread, and how its answer becomes a measurement. */
import { randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import { mkdir, rm } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import type { HandCorrection, Measurement, MeasurementRequest, Photo, ShopModelName } from "../api/photo.ts";
import { InputError } from "../core/input-error.ts";
import { cardRulerPrintedMm } from "../core/vision/measuring-card.ts";
import type { RustModel } from "../core/vision/rust-model.ts";
import { rustModel1 } from "../core/vision/rust-model-1.ts";
import type { ShopStore } from "../store/open-shop.ts";
import { PhotoRefused, type Work } from "./job-queue.ts";
import type { MeasuredPhoto } from "./photos/measure-photo.ts";
import { refusedSurface } from "./photos/refused-surface.ts";
import type { ServedShop } from "./served-shop.ts";

/** What measuring needs of a served shop. */
export type Measuring = Pick<ServedShop, "store" | "measurer" | "now">;

export function measureWork(served: Measuring, photo: Photo, request: MeasurementRequest): Work {
  const { store, measurer, now } = served;
  return async (handles) =>
    inFolder(store, async (outDir) => {
      const surface = refusedSurface(request.surface);
      if (surface) throw new PhotoRefused(surface);
      const photoPath = store.photos.files.pathOf(photo);
      handles.signal.throwIfAborted();
      const printScale = await printScaleOf(store);
      const [model, first] = [await modelOf(store, request.shopModel), await firstOf(store, request)];
      const task = { kind: "measure", photoPath, request, printScale, model, first, outDir } as const;
      const measured = await measurer.run(task, handles);
      handles.signal.throwIfAborted();
      if ("refused" in measured) throw new PhotoRefused(measured);
      const at = now().toISOString();
      const rectified = await keep(store, measured.rectifiedPath, "image/jpeg", at);
      await add(store, measured, { request, rectified, byHand: null, measuredAt: at });
    });
}

/** How large this shop's card came out of its printer, by its own ruler; 1 where nobody measured. */
export async function printScaleOf(store: ShopStore): Promise<number> {
  const { cardRulerMm } = await store.settings.shop();
  return (cardRulerMm ?? cardRulerPrintedMm) / cardRulerPrintedMm;
}

/** The shop's model of that name and version, or the one that comes with the program. Refuses one that nobody saved. */
export async function modelOf(store: ShopStore, named: ShopModelName | undefined): Promise<RustModel> {
  if (!named) return rustModel1;
  const kept = await store.rustModels.find(named);
  if (!kept)
    throw new InputError("shopModel", `${named.name}, version ${named.version}`, "a model that was saved in this shop");
  return kept.model;
}

/** What the request names as the face's first photograph, square on. Refuses one that cannot be laid on this one. */
export async function firstOf(store: ShopStore, { first, sizeMm }: Pick<MeasurementRequest, "first" | "sizeMm">) {
  if (first === undefined) return null;
  const found = await store.measurements.find(first);
  if (!found) throw new InputError("first", first, "the id of a measurement in this shop");
  if (!found.card) throw new InputError("first", first, "a measurement made with the measuring card");
  const { lengthMm, widthMm } = found.request.sizeMm;
  if (lengthMm !== sizeMm.lengthMm || widthMm !== sizeMm.widthMm)
    throw new InputError(
      "first",
      `of ${lengthMm} x ${widthMm} mm`,
      `a face of ${sizeMm.lengthMm} x ${sizeMm.widthMm} mm`,
    );
  const rectifiedPath = store.photos.files.pathOf({ hash: found.rectified, mediaType: "image/jpeg" });
  return { measurement: first, rectifiedPath };
}

/** A correction starts from the pictures of the measurement it corrects; that one stays as it is. */
export function correctionWork(served: Measuring, from: Measurement, correction: HandCorrection): Work {
  const { store, measurer, now } = served;
  const { id, by, why, strokes } = correction;
  const request = { ...from.request, id };
  return async (handles) =>
    inFolder(store, async (outDir) => {
      const rectifiedPath = store.photos.files.pathOf({ hash: from.rectified, mediaType: "image/jpeg" });
      const maskPath = store.photos.files.pathOf({ hash: from.mask, mediaType: "image/png" });
      handles.signal.throwIfAborted();
      const measured = await measurer.run(
        {
          kind: "correct",
          rectifiedPath,
          maskPath,
          method: from.method,
          pxPerMm: from.pxPerMm,
          request,
          strokes,
          outDir,
        },
        handles,
      );
      handles.signal.throwIfAborted();
      if ("refused" in measured) throw new PhotoRefused(measured);
      const byHand = { by, why, from: from.id };
      const { cornersPx, card, gate, light } = from;
      const seen = {
        ...(cornersPx === undefined ? {} : { cornersPx }),
        ...(card === undefined ? {} : { card }),
        ...(gate === undefined ? {} : { gate }),
        // What a hand has corrected is the hand's word, whatever the light was.
        ...(light === undefined ? {} : { light: light.by === "nothing" ? { ...light, warning: null } : light }),
      };
      const rest = { request, rectified: from.rectified, byHand, measuredAt: now().toISOString() };
      await add(store, { ...measured, ...seen }, rest);
    });
}

type Rest = Pick<Measurement, "request" | "rectified" | "byHand" | "measuredAt">;

async function add(store: ShopStore, measured: MeasuredPhoto, rest: Rest): Promise<void> {
  const { rectifiedPath: _, maskPath, overlayPath, sinceOverlayPath, rustSince, ...numbers } = measured;
  const mask = await keep(store, maskPath, "image/png", rest.measuredAt);
  const overlay = await keep(store, overlayPath, "image/jpeg", rest.measuredAt);
  const outlined = sinceOverlayPath && (await keep(store, sinceOverlayPath, "image/jpeg", rest.measuredAt));
  const since = rustSince && { rustSince: { ...rustSince, ...(outlined ? { overlay: outlined } : {}) } };
  await store.measurements.add({ id: rest.request.id, ...numbers, ...since, ...rest, mask, overlay });
}

/** Puts a made picture among the photographs; returns its content hash. */
export async function keep(
  store: ShopStore,
  path: string,
  mediaType: Photo["mediaType"],
  addedAt: string,
): Promise<string> {
  const { width: widthPx, height: heightPx } = await sharp(path).metadata();
  const arrived = await store.photos.files.arrive(createReadStream(path));
  const kept = await store.photos.add(arrived, { mediaType, widthPx, heightPx, takenAt: null }, addedAt);
  return kept.hash;
}

/** A folder for unfinished files that is gone afterwards, whatever happens. */
export async function inFolder<Done>(store: ShopStore, work: (outDir: string) => Promise<Done>): Promise<Done> {
  const outDir = join(store.dir, "unfinished", randomUUID());
  await mkdir(outDir, { recursive: true });
  try {
    return await work(outDir);
  } finally {
    await rm(outDir, { recursive: true, force: true });
  }
}
