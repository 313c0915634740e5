/**
 * The measuring card in a photograph: which one, and the map from its millimetres to the picture.
 *
 * Every corner of every marker seen counts in one least-squares map, so a hidden marker costs precision and nothing else. The lens is
 * taken to draw straight lines straight, as phones do by themselves.
 *
 * Units    mm on the card, px in the picture
 * Source   our own
 * Status   computed
 */
import { requirePositive } from "../input-error.ts";
import { type FoundMarker, findMarkers } from "./find-markers.ts";
import { type Homography, homographyOf, inverted, mapped, type Point } from "./homography.ts";
import { cardOfMarker, type MeasuringCard, markerCornersMm } from "./measuring-card.ts";
import type { RgbImage } from "./raster.ts";

export type FoundCard = {
  card: MeasuringCard;
  /** What the card's own ruler measures for its printed 1: 0.97 on a print that came out 3 % small. */
  printScale: number;
  /** From mm on the print (printed scale taken in) to px. */
  toPicture: Homography;
  markers: FoundMarker[];
  /** Root mean square distance between where markers' corners lie and where a flat card would have them, mm. */
  unevenMm: number;
};

/** A corner that lies this far off the others' plane belongs to a marker that was misread, mm. */
const strayMm = 2;

/** The card with the most markers in the picture; null where fewer than two markers of one card are seen. */
export function findCard(photo: RgbImage, printScale: number): FoundCard | null {
  requirePositive("printScale", printScale);
  const seen = findMarkers(photo);
  const byCard = new Map<string, { card: MeasuringCard; markers: FoundMarker[] }>();
  for (const marker of seen) {
    const card = cardOfMarker(marker.id);
    if (!card) continue;
    const group = byCard.get(card.name) ?? { card, markers: [] };
    group.markers.push(marker);
    byCard.set(card.name, group);
  }
  const most = [...byCard.values()].sort((a, b) => b.markers.length - a.markers.length)[0];
  if (!most || most.markers.length < 2) return null;
  return fitted(most.card, most.markers, printScale);
}

function fitted(card: MeasuringCard, markers: FoundMarker[], printScale: number): FoundCard | null {
  const pairs = markers.map((marker) => {
    const place = card.markers.find(({ id }) => id === marker.id)!;
    return { marker, mm: markerCornersMm(place).map(([x, y]): Point => [x * printScale, y * printScale]) };
  });
  const toPicture = homographyOf(
    pairs.flatMap(({ mm }) => mm),
    pairs.flatMap(({ marker }) => marker.cornersPx),
  );
  const back = inverted(toPicture);
  const off = pairs.map(({ marker, mm }) =>
    marker.cornersPx.map((corner, at) => {
      const [x, y] = mapped(back, corner);
      return Math.hypot(x - mm[at]![0], y - mm[at]![1]);
    }),
  );
  const worst = off.map((distances) => Math.max(...distances));
  const most = Math.max(...worst);
  if (most > strayMm && markers.length > 2)
    return fitted(
      card,
      markers.filter((_, at) => worst[at] !== most),
      printScale,
    );
  const all = off.flat();
  const unevenMm = Math.sqrt(all.reduce((sum, distance) => sum + distance * distance, 0) / all.length);
  return unevenMm > strayMm ? null : { card, printScale, toPicture, markers, unevenMm };
}
