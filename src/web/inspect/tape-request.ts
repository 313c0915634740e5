/** What is asked of the shop about the two photographs of a tape test. */

import type { Photo } from "../../api/photo.ts";
import { type TapeReadingRequest, tapeReadingRequest } from "../../api/tape-photo.ts";
import { usualXMm } from "../../core/vision/tape-cuts.ts";
import type { Corners } from "./corner-geometry.ts";
import type { LatticeCut } from "./tape-details.ts";

export type TapePhoto = { photo: Photo; corners: Corners };

export function tapeRequest(before: TapePhoto, after: TapePhoto, lattice: LatticeCut | null): TapeReadingRequest {
  return tapeReadingRequest.parse({
    before: { photo: before.photo.hash, cornersPx: before.corners },
    after: { photo: after.photo.hash, cornersPx: after.corners },
    pattern: lattice ? { form: "cross-cut", ...lattice } : { form: "x-cut", sizeMm: usualXMm },
  });
}
