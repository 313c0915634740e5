/**
 * A measuring card with a coupon on it, as a camera sees it: every ray is followed to the coupon's top, the card or the bench.
 * Invented; the truth is known to the last digit. Light is mixed as light, sRGB comes last.
 */

import { seededRandom } from "../src/core/numeric/random.ts";
import { type Homography, homographyOf, inverted, mapped, type Point } from "../src/core/vision/homography.ts";
import { linearLight } from "../src/core/vision/lab-image.ts";
import { markerBits, markerModules } from "../src/core/vision/marker-codes.ts";
import { type CardName, type MeasuringCard, measuringCard } from "../src/core/vision/measuring-card.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { rusted } from "../src/server/demo/render-coupon.ts";
import { type SteelFinish, type SteelPiece, steelPiece } from "../src/server/demo/steel-piece.ts";

export type CardScene = {
  seed: number;
  card: CardName;
  /** What the print measures for its printed 1. */
  printScale?: number;
  widthPx: number;
  heightPx?: number;
  /** Degrees: towards where the camera leans, and how much. */
  tiltDeg?: number;
  tiltTowardsDeg?: number;
  /** Turn of the card in the picture. */
  turnDeg?: number;
  /** Share of the picture's width that the card fills when seen square on. */
  fills?: number;
  /** sRGB colours of the coupon's plane; null: no coupon on the card. */
  coupon: {
    piece: Pick<SteelPiece, "sizeMm" | "width" | "height">;
    colours: Float32Array;
    thicknessMm: number;
    turnDeg?: number;
  } | null;
  light?: {
    exposure?: number;
    /** Change of the light from one end of the card to the other, along x and y. */
    alongX?: number;
    alongY?: number;
    tint?: readonly [number, number, number];
    /** Length of the coupon's shadow over its thickness, and its darkness. */
    shadow?: number;
    /** Right part of the card that a hard shadow covers, 0 to 1. */
    hardShadow?: number;
    /** Strength of a mirrored lamp on the coupon. */
    glare?: number;
  };
  /** Standard deviation of the blur, px; and a straight movement, px along the picture's x. */
  blurPx?: number;
  motionPx?: number;
  noise?: number;
  /** Markers (0 to 3) under a thumb. */
  hidden?: readonly number[];
};

/** A rustless coupon of 100 by 60 mm, 3 mm thick, to lay on the card. */
export function cleanCoupon(finish: SteelFinish) {
  const piece = steelPiece({ seed: 4, number: "7", finish, sizeMm: { lengthMm: 100, widthMm: 60 }, edgeBandMm: 5 });
  return { piece, colours: piece.rgb, thicknessMm: 3 };
}

/** The same with rust drawn on it: as much of the face and the edge band as is asked for. */
export function rustyCoupon(finish: SteelFinish, shares: { rustedPercent: number; edgePercent: number }) {
  const piece = steelPiece({ seed: 4, number: "7", finish, sizeMm: { lengthMm: 100, widthMm: 60 }, edgeBandMm: 5 });
  return { piece, colours: rusted(piece, shares).colours, thicknessMm: 3 };
}

export type RenderedCard = RgbImage & {
  /** Of the coupon's top, clockwise from its top left. */
  couponCornersPx: readonly Point[] | null;
};

const focalShare = 26 / 43.27;

export function renderCard(scene: CardScene): RenderedCard {
  const card = measuringCard(scene.card);
  const scale = scene.printScale ?? 1;
  const widthPx = scene.widthPx;
  const heightPx = scene.heightPx ?? Math.round(widthPx * 0.75);
  const view = viewOf(scene, card, scale, widthPx, heightPx);
  const light = { ...usualLight, ...scene.light };
  const flat = inverted(view(0));
  const thickness = scene.coupon?.thicknessMm ?? 0;
  const lifted = inverted(view(thickness));
  const couponAt = couponPlace(scene, card, scale);
  const linear = new Float32Array(widthPx * heightPx * 3);
  const cells = scene.coupon ? asLight(scene.coupon.colours) : null;
  const printed = printedCard(card, scene.hidden ?? []);
  const [width, height] = [card.widthMm * scale, card.heightMm * scale];
  const colour = new Float64Array(3);
  for (let y = 0, at = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++, at += 3)
      for (let sub = 0; sub < 4; sub++) {
        const px = x + (sub & 1 ? 0.75 : 0.25);
        const py = y + (sub & 2 ? 0.75 : 0.25);
        const w = 1 / (flat[6] * px + flat[7] * py + flat[8]);
        const mx = (flat[0] * px + flat[1] * py + flat[2]) * w;
        const my = (flat[3] * px + flat[4] * py + flat[5]) * w;
        const u = mx / width - 0.5;
        const v = my / height - 0.5;
        const onCard = u >= -0.5 && u < 0.5 && v >= -0.5 && v < 0.5;
        const onCoupon = onCard && couponAt ? couponAt.inside(mapped(lifted, [px, py])) : null;
        if (onCoupon && cells && scene.coupon) steelAt(scene.coupon.piece, cells, onCoupon, light.glare, colour);
        else if (onCard) {
          const shade = couponAt
            ? shadowOf(couponAt.outsideMm([mx - thickness * light.shadow, my - thickness * light.shadow]))
            : 1;
          colour.fill(printed.at(mx / scale, my / scale) * shade);
        } else colour.fill(0.3 * (1 + 0.1 * Math.sin(mx * 0.8) * Math.sin(my * 0.13)));
        const bright =
          light.exposure * (1 + light.alongX * u + light.alongY * v) * (u > 0.5 - light.hardShadow ? 0.45 : 1);
        for (let channel = 0; channel < 3; channel++)
          linear[at + channel]! += (colour[channel]! * bright * light.tint[channel]!) / 4;
      }
  const blurred = moved(
    blurredBy(linear, widthPx, heightPx, scene.blurPx ?? 0.7),
    widthPx,
    heightPx,
    scene.motionPx ?? 0,
  );
  const noise = scene.noise ?? 1.5;
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0, grainAt = (scene.seed * 7919) % grain.length; at < rgb.length; at++) {
    rgb[at] = Math.max(
      0,
      Math.min(
        255,
        Math.round(encoded[(Math.max(0, Math.min(1, blurred[at]!)) * encodeSteps) | 0]! + noise * grain[grainAt]!),
      ),
    );
    grainAt = grainAt + 1 === grain.length ? 0 : grainAt + 1;
  }
  return {
    widthPx,
    heightPx,
    rgb,
    couponCornersPx: couponAt ? couponAt.corners.map((corner) => mapped(view(thickness), corner)) : null,
  };
}

const usualLight = {
  exposure: 0.8,
  alongX: 0.15,
  alongY: -0.1,
  tint: [1, 1, 1] as readonly number[],
  shadow: 0.6,
  hardShadow: 0,
  glare: 0,
};
const rectangle = (width: number, height: number): Point[] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

/** From a plane at some height above the card to the picture. */
function viewOf(scene: CardScene, card: MeasuringCard, scale: number, widthPx: number, heightPx: number) {
  const focal = focalShare * Math.hypot(widthPx, heightPx);
  const width = card.widthMm * scale;
  const distance = (focal * width) / ((scene.fills ?? 0.72) * widthPx);
  const rad = (degrees: number) => (degrees * Math.PI) / 180;
  const tilt = rad(scene.tiltDeg ?? 0);
  const towards = rad(scene.tiltTowardsDeg ?? 90);
  const turn = rad(scene.turnDeg ?? 0);
  const axis = [Math.cos(towards), Math.sin(towards), 0] as const;
  const rotate = ([x, y, z]: readonly [number, number, number]) => {
    const [rx, ry] = [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)];
    const dot = axis[0] * rx + axis[1] * ry;
    const cross = [axis[1] * z, -axis[0] * z, axis[0] * ry - axis[1] * rx] as const;
    return [0, 1, 2].map(
      (at) => [rx, ry, z][at]! * Math.cos(tilt) + cross[at]! * Math.sin(tilt) + axis[at]! * dot * (1 - Math.cos(tilt)),
    );
  };
  return (height: number): Homography => {
    const points = rectangle(width, card.heightMm * scale);
    const seen = points.map(([x, y]): Point => {
      const [cx, cy, cz] = rotate([x - width / 2, y - (card.heightMm * scale) / 2, -height]) as [
        number,
        number,
        number,
      ];
      const z = cz + distance;
      return [widthPx / 2 + (focal * cx) / z, heightPx / 2 + (focal * cy) / z];
    });
    return homographyOf(points, seen);
  };
}

function couponPlace(scene: CardScene, card: MeasuringCard, scale: number) {
  if (!scene.coupon) return null;
  const { lengthMm, widthMm } = scene.coupon.piece.sizeMm;
  const turn = ((scene.coupon.turnDeg ?? 0) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const middle: Point = [
    (card.window.xMm + card.window.widthMm / 2) * scale + 0.7,
    (card.window.yMm + card.window.heightMm / 2) * scale - 0.4,
  ];
  const inside = ([x, y]: Point): Point | null => {
    const [dx, dy] = [x - middle[0], y - middle[1]];
    const u = (dx * cos + dy * sin) / lengthMm + 0.5;
    const v = (dy * cos - dx * sin) / widthMm + 0.5;
    return u >= 0 && u < 1 && v >= 0 && v < 1 ? [u, v] : null;
  };
  /** Distance outside the coupon, mm; 0 within. */
  const outsideMm = ([x, y]: Point): number => {
    const [dx, dy] = [x - middle[0], y - middle[1]];
    const along = Math.max(0, Math.abs(dx * cos + dy * sin) - lengthMm / 2);
    const down = Math.max(0, Math.abs(dy * cos - dx * sin) - widthMm / 2);
    return Math.hypot(along, down);
  };
  const corner = (u: number, v: number): Point => {
    const [a, b] = [u * lengthMm, v * widthMm];
    return [middle[0] + a * cos - b * sin, middle[1] + a * sin + b * cos];
  };
  return { inside, outsideMm, corners: [corner(-0.5, -0.5), corner(0.5, -0.5), corner(0.5, 0.5), corner(-0.5, 0.5)] };
}

function asLight(colours: Float32Array): Float32Array {
  return colours.map((value) => linearLight[Math.max(0, Math.min(255, Math.round(value)))]!);
}

function steelAt(
  piece: Pick<SteelPiece, "width" | "height">,
  cells: Float32Array,
  [u, v]: Point,
  glare: number,
  out: Float64Array,
): void {
  const at =
    (Math.min(piece.height - 1, Math.floor(v * piece.height)) * piece.width +
      Math.min(piece.width - 1, Math.floor(u * piece.width))) *
    3;
  const lamp = glare * Math.exp(-(((u - 0.5) / 0.18) ** 2) - ((v - 0.5) / 0.25) ** 2);
  for (let channel = 0; channel < 3; channel++) out[channel] = cells[at + channel]! + lamp;
}

/** Sensor noise of unit spread; a prime length never lines up with the rows of a picture. */
const grain = (() => {
  const random = seededRandom(13);
  return Float32Array.from({ length: 99_991 }, () => (random.next() + random.next() + random.next() - 1.5) * 2);
})();

const paper = 0.92;
const ink = 0.035;

/** Share of the light that reaches paper at this distance (mm) from what shades it. */
const shadowOf = (awayMm: number) => 1 - 0.6 * Math.max(0, Math.min(1, 1 - awayMm / 0.5));

const printPerMm = 8;

/** The print once, so that each ray is one look-up. */
function printedCard(card: MeasuringCard, hidden: readonly number[]) {
  const columns = card.widthMm * printPerMm;
  const rows = card.heightMm * printPerMm;
  const grey = new Float32Array(columns * rows).fill(paper);
  const fill = (xMm: number, yMm: number, widthMm: number, heightMm: number, value: number) => {
    for (let row = Math.max(0, yMm * printPerMm); row < Math.min(rows, (yMm + heightMm) * printPerMm); row++)
      grey.fill(
        value,
        row * columns + Math.max(0, xMm * printPerMm),
        row * columns + Math.min(columns, (xMm + widthMm) * printPerMm),
      );
  };
  const module = card.markerMm / markerModules;
  for (const [at, marker] of card.markers.entries()) {
    if (hidden.includes(at)) {
      fill(marker.xMm - 3, marker.yMm - 3, card.markerMm + 6, card.markerMm + 6, 0.25);
      continue;
    }
    fill(marker.xMm, marker.yMm, card.markerMm, card.markerMm, ink);
    markerBits[marker.id]!.forEach((bit, index) => {
      const [column, row] = [1 + (index % 6), 1 + Math.floor(index / 6)];
      if (bit === 1) fill(marker.xMm + column * module, marker.yMm + row * module, module, module, paper);
    });
  }
  for (const patch of card.patches)
    fill(patch.xMm, patch.yMm, patch.widthMm, patch.heightMm, ink + (paper - ink) * linearLight[patch.grey]!);
  const at = (xMm: number, yMm: number) =>
    grey[
      Math.min(rows - 1, Math.floor(yMm * printPerMm)) * columns + Math.min(columns - 1, Math.floor(xMm * printPerMm))
    ]!;
  return { at };
}

const encodeSteps = 16_384;
/** sRGB (IEC 61966-2-1) by light in fine steps. */
const encoded = Float32Array.from({ length: encodeSteps + 1 }, (_, step) => {
  const share = (step + 0.5) / encodeSteps;
  return 255 * (share <= 0.0031308 ? share * 12.92 : 1.055 * share ** (1 / 2.4) - 0.055);
});

/** Gaussian, rows then columns. */
function blurredBy(linear: Float32Array, widthPx: number, heightPx: number, sigma: number): Float32Array {
  if (sigma <= 0) return linear;
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((sum, one) => sum + one, 0);
  return convolved(
    convolved(
      linear,
      widthPx,
      heightPx,
      weights.map((one) => one / total),
      3,
    ),
    widthPx,
    heightPx,
    weights.map((one) => one / total),
    3 * widthPx,
  );
}

function moved(linear: Float32Array, widthPx: number, heightPx: number, motionPx: number): Float32Array {
  if (motionPx < 1) return linear;
  const length = Math.round(motionPx);
  return convolved(linear, widthPx, heightPx, new Array<number>(length).fill(1 / length), 3);
}

function convolved(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  weights: readonly number[],
  stride: number,
): Float32Array {
  const to = new Float32Array(from.length);
  const reach = (weights.length - 1) >> 1;
  const along = stride === 3;
  const last = (along ? widthPx : heightPx) - 1;
  for (let y = 0, at = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++, at += 3) {
      const own = along ? x : y;
      let [red, green, blue] = [0, 0, 0];
      for (let tap = 0; tap < weights.length; tap++) {
        const place = Math.min(last, Math.max(0, own + tap - reach));
        const source = at + (place - own) * stride;
        red += weights[tap]! * from[source]!;
        green += weights[tap]! * from[source + 1]!;
        blue += weights[tap]! * from[source + 2]!;
      }
      to[at] = red;
      to[at + 1] = green;
      to[at + 2] = blue;
    }
  return to;
}
