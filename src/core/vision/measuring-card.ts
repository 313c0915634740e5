/**
 * The measuring cards: where markers, window and patches lie. One place for the printed page and for finding it in a photograph.
 *
 * Card coordinates run from its top left corner, x to the right, y down. A card carries four markers of its own, so a photograph tells
 * which card lies in it. The window is bare paper: its white is the light's measure.
 *
 * Units    mm on a card printed to scale
 * Source   our own
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import type { SizeMm } from "./coupon-plane.ts";

export const cardNames = ["small", "medium", "large"] as const;
export type CardName = (typeof cardNames)[number];

export type RectangleMm = { xMm: number; yMm: number; widthMm: number; heightMm: number };
export type CardMarker = { id: number; xMm: number; yMm: number };
/** A printed grey; `grey` is the sRGB byte that is printed in all three channels, 255 being bare paper. */
export type CardPatch = RectangleMm & { grey: number };

export type MeasuringCard = {
  name: CardName;
  widthMm: number;
  heightMm: number;
  /** Side of the marker's black square. */
  markerMm: number;
  /** Top left, top right, bottom right, bottom left. */
  markers: readonly CardMarker[];
  window: RectangleMm;
  patches: readonly CardPatch[];
};

/** Length of the ruler on the printed page; what it measures on paper tells the print's error. */
export const cardRulerPrintedMm = 100;

const markerMm = 16;
/** White between a marker and the card's rim, the window and the patches. */
const quietMm = 4;
const patchMm = 8;
const patchGreys = [0, 85, 170, 255] as const;
/** Bare paper kept free round a coupon, so that its edge and the light beside it are seen. */
const leastRoundCouponMm = 8;

const windows: Record<CardName, { widthMm: number; heightMm: number }> = {
  small: { widthMm: 84, heightMm: 58 },
  medium: { widthMm: 126, heightMm: 84 },
  large: { widthMm: 180, heightMm: 132 },
};

/** The card of that name, in mm. */
export function measuringCard(name: CardName): MeasuringCard {
  const window = { xMm: quietMm, yMm: markerMm + 2 * quietMm, ...windows[name] };
  const widthMm = window.widthMm + 2 * quietMm;
  const heightMm = window.heightMm + 2 * window.yMm;
  const right = widthMm - quietMm - markerMm;
  const bottom = heightMm - quietMm - markerMm;
  const firstId = 4 * cardNames.indexOf(name);
  const places = [
    [quietMm, quietMm],
    [right, quietMm],
    [right, bottom],
    [quietMm, bottom],
  ] as const;
  const stripMm = patchGreys.length * patchMm;
  return {
    name,
    widthMm,
    heightMm,
    markerMm,
    markers: places.map(([xMm, yMm], at) => ({ id: firstId + at, xMm, yMm })),
    window,
    patches: patchGreys.map((grey, at) => ({
      xMm: (widthMm - stripMm) / 2 + at * patchMm,
      yMm: quietMm + (markerMm - patchMm) / 2,
      widthMm: patchMm,
      heightMm: patchMm,
      grey,
    })),
  };
}

/** The card that carries this marker; null for a marker of no card. */
export function cardOfMarker(id: number): MeasuringCard | null {
  const name = cardNames[Math.floor(id / 4)];
  return name === undefined ? null : measuringCard(name);
}

/** The four corners of a marker in mm, clockwise from its top left. */
export function markerCornersMm({ xMm, yMm }: CardMarker): [number, number][] {
  return [
    [xMm, yMm],
    [xMm + markerMm, yMm],
    [xMm + markerMm, yMm + markerMm],
    [xMm, yMm + markerMm],
  ];
}

/**
 * The largest coupon that leaves white round itself in the card's window, its longer side lying across.
 *
 * Units    mm
 * Source   rule of this project: the white from which the coupon's edge is told
 * Status   common practice
 */
export function largestCouponMm(name: CardName): SizeMm {
  const { widthMm, heightMm } = windows[name];
  return { lengthMm: widthMm - 2 * leastRoundCouponMm, widthMm: heightMm - 2 * leastRoundCouponMm };
}

/** The smallest card on which a coupon fits; null when it fits none. */
export function cardForCoupon(size: SizeMm): CardName | null {
  const long = Math.max(size.lengthMm, size.widthMm);
  const short = Math.min(size.lengthMm, size.widthMm);
  if (!(short > 0)) throw new InputError("size", size, "a length and width above 0 mm");
  return (
    cardNames.find((name) => {
      const largest = largestCouponMm(name);
      return long <= largest.lengthMm && short <= largest.widthMm;
    }) ?? null
  );
}
