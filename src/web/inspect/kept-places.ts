/** What was marked on the last coupon of a trial, kept on this device: holes are drilled alike. */
import * as z from "zod/mini";
import { measurementRequest } from "../../api/photo.ts";
import { keep, readKept } from "../keep/kept.ts";
import type { SizeMm } from "./corner-geometry.ts";
import { asRequested, contactsRequested, type Places } from "./places.ts";

const shape = z.pick(measurementRequest, { sizeMm: true, hiddenMm: true, outlineMm: true, contactsMm: true });
const keyOf = (trial: string) => `places of ${trial}`;

export function keepPlaces(trial: string, sizeMm: SizeMm, places: Places) {
  keep(keyOf(trial), { sizeMm, ...asRequested(places), ...contactsRequested(places) });
}

/** Null: nothing was marked, or on a coupon that lay the other way round. */
export function keptPlaces(trial: string, size: SizeMm): Places | null {
  const kept = shape.safeParse(readKept(keyOf(trial)));
  if (!kept.success) return null;
  const { sizeMm, hiddenMm = [], outlineMm = [], contactsMm = [] } = kept.data;
  const isSame = sizeMm.lengthMm === size.lengthMm && sizeMm.widthMm === size.widthMm;
  const marked = hiddenMm.length + outlineMm.length + contactsMm.length;
  return isSame && marked > 0 ? { hiddenMm, outlineMm, contactsMm } : null;
}
