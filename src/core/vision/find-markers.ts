/**
 * Markers of the measuring cards in a photograph: found on a reduced copy, corners refined in the full picture.
 *
 * Units    px of the full picture
 * Source   our own; codes of ARUCO_MIP_36h12
 * Status   computed
 */
import { darkQuads, type Quad } from "./dark-quads.ts";
import { type GreyImage, reducedGrey } from "./grey-image.ts";
import { homographyOf, mapped, type Point } from "./homography.ts";
import { codeModules, markerModules, readMarkerBits } from "./marker-codes.ts";
import { type EdgeWidth, refinedQuad } from "./marker-edges.ts";
import type { RgbImage } from "./raster.ts";

export type FoundMarker = {
  id: number;
  /** Clockwise from the marker's own top left, however it lies in the picture. */
  cornersPx: Quad;
  /** How far its edges are drawn out by blur, along the card's x and y. */
  edgeWidth: EdgeWidth;
};

/** Longer side of the reduced copies. A marker on a card that fills the frame is some 60 px in the first; the second is for a card far off. */
const reducedPx = [700, 1400] as const;
/** A card carries so many; with fewer in sight the finer copy is asked. */
const markersOfCard = 4;
/** White must outshine black by this share of white. */
const leastContrast = 0.25;
const leastBlackBorder = 0.85;

/** Every marker of the family's first twelve codes; px. A code seen twice counts where it reads best. */
export function findMarkers(photo: RgbImage): FoundMarker[] {
  const [coarse, fine] = reducedPx;
  const found = markersAt(photo, coarse);
  // A picture that is smaller than the coarse copy has no finer one.
  if (found.length >= markersOfCard || Math.max(photo.widthPx, photo.heightPx) <= coarse) return found;
  const finer = markersAt(photo, fine);
  return finer.length > found.length ? finer : found;
}

function markersAt(photo: RgbImage, mostPx: number): FoundMarker[] {
  const { image, factor } = reducedGrey(photo, mostPx);
  const best = new Map<number, { quad: Quad; wrongBits: number }>();
  for (const quad of darkQuads(image)) {
    const read = readQuad(image, quad);
    if (!read) continue;
    const known = best.get(read.id);
    if (!known || read.wrongBits < known.wrongBits) best.set(read.id, read);
  }
  return [...best].flatMap(([id, { quad }]) => {
    const full = quad.map(([x, y]): Point => [x * factor, y * factor]) as unknown as Quad;
    const refined = refinedQuad(photo, full);
    return refined ? [{ id, cornersPx: refined.corners, edgeWidth: refined.edgeWidth }] : [];
  });
}

const corners: readonly Point[] = [
  [0, 0],
  [markerModules, 0],
  [markerModules, markerModules],
  [0, markerModules],
];

function readQuad(image: GreyImage, quad: Quad): { id: number; quad: Quad; wrongBits: number } | null {
  const toPicture = homographyOf(corners, quad);
  const at = (x: number, y: number) => greyAt(image, mapped(toPicture, [x, y]));
  const cell = (column: number, row: number) =>
    (at(column + 0.35, row + 0.35) +
      at(column + 0.65, row + 0.35) +
      at(column + 0.35, row + 0.65) +
      at(column + 0.65, row + 0.65)) /
    4;
  const alongSide = Array.from({ length: markerModules }, (_, along) => along + 0.5);
  const last = markerModules - 1;
  const around = alongSide.flatMap((along) => [
    at(along, -0.6),
    at(along, markerModules + 0.6),
    at(-0.6, along),
    at(markerModules + 0.6, along),
  ]);
  const border = Array.from({ length: markerModules }, (_, along) => [
    cell(along, 0),
    cell(along, last),
    cell(0, along),
    cell(last, along),
  ]).flat();
  const [white, black] = [median(around), median(border)];
  if (white - black < leastContrast * white) return null;
  const limit = (white + black) / 2;
  if (border.filter((value) => value < limit).length < leastBlackBorder * border.length) return null;
  const bits = Uint8Array.from({ length: codeModules * codeModules }, (_, bit) =>
    cell(1 + (bit % codeModules), 1 + Math.floor(bit / codeModules)) > limit ? 1 : 0,
  );
  const read = readMarkerBits(bits);
  if (!read) return null;
  // The marker's own top left is that many corners further round.
  const own = [0, 1, 2, 3].map((corner) => quad[(corner + read.quarterTurns) % 4]!) as unknown as Quad;
  return { id: read.id, quad: own, wrongBits: read.wrongBits };
}

function greyAt({ widthPx, heightPx, grey }: GreyImage, [px, py]: Point): number {
  const x = Math.min(widthPx - 1, Math.max(0, px - 0.5));
  const y = Math.min(heightPx - 1, Math.max(0, py - 0.5));
  const left = Math.floor(x);
  const top = Math.floor(y);
  const right = Math.min(widthPx - 1, left + 1);
  const below = Math.min(heightPx - 1, top + 1) * widthPx;
  const shareX = x - left;
  const upper = grey[top * widthPx + left]! * (1 - shareX) + grey[top * widthPx + right]! * shareX;
  const lower = grey[below + left]! * (1 - shareX) + grey[below + right]! * shareX;
  return upper + (lower - upper) * (y - top);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return Number.isInteger(half) ? (sorted[half - 1]! + sorted[half]!) / 2 : sorted[Math.floor(half)]!;
}
