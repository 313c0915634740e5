/**
 * Pictures of coupons for the demonstration, rendered and invented, with exactly known rust.
 *
 * What they cannot show: real crystals, wet films, rust thinner than a pixel's cover, the light of a real day. The run-off
 * below a spot is drawn fainter than the colour rule's limit; strong run-off on real steel would be counted as rust.
 */
import { requirePercent, requireWhole } from "../../core/input-error.ts";
import { seededRandom } from "../../core/numeric/random.ts";
import type { CornersPx } from "../../core/vision/coupon-plane.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import { type Light, photographed } from "./bench-camera.ts";
import { inkedCells, letterPitch, letterRows } from "./bitmap-letters.ts";
import type { SteelPiece } from "./steel-piece.ts";

export type RenderedCoupon = RgbImage & {
  cornersPx: CornersPx;
  /** What was drawn, counted point by point before the camera. edgePercent is null without an edge band. */
  truth: { rustedPercent: number; edgePercent: number | null };
};

export type Look = {
  /** % of the face and of the edge band that are to be rusted; more never takes rust away. */
  rustedPercent: number;
  edgePercent: number;
  /** Number of the look: hand, light and noise differ from one to the next. */
  look: number;
  widthPx: number;
};

/** The picture of a coupon at one look, three quarters as high as wide, px. */
export function renderLook(piece: SteelPiece, seed: number, look: Look): RenderedCoupon {
  requirePercent("rustedPercent", look.rustedPercent);
  requirePercent("edgePercent", look.edgePercent);
  requireWhole("look", look.look);
  requireWhole("widthPx", look.widthPx, 100);
  const { colours, truth } = rusted(piece, look);
  const frame = { width: look.widthPx, height: Math.round(look.widthPx * 0.75) };
  const random = seededRandom(seed * 1000 + look.look);
  const jitter = () => (random.next() - 0.5) * 0.035 * frame.width;
  const scale = Math.min((0.84 * frame.width) / piece.sizeMm.lengthMm, (0.8 * frame.height) / piece.sizeMm.widthMm);
  const [halfX, halfY] = [(scale * piece.sizeMm.lengthMm) / 2, (scale * piece.sizeMm.widthMm) / 2];
  const corner = (signX: number, signY: number) =>
    [frame.width / 2 + signX * halfX + jitter(), frame.height / 2 + signY * halfY + jitter()] as const;
  const cornersPx: CornersPx = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  const light: Light = {
    exposure: 1 + (random.next() - 0.5) * 0.1,
    alongX: (random.next() - 0.5) * 0.14,
    alongY: (random.next() - 0.5) * 0.14,
    // A phone's white balance is never quite the same twice.
    tint: [1 + (random.next() - 0.5) * 0.012, 1, 1 + (random.next() - 0.5) * 0.012],
    noiseFrom: random.below(1_000_000),
  };
  const rgb = photographed(piece, colours, frame, cornersPx, light);
  caption({ widthPx: frame.width, heightPx: frame.height, rgb });
  return { widthPx: frame.width, heightPx: frame.height, rgb, cornersPx, truth };
}

/** sRGB of fresh, settled and old rust. */
const rustRgb = [
  [172, 96, 44],
  [136, 70, 38],
  [98, 56, 40],
] as const;
const stainRgb = [5, 0, -5] as const;
/** Run-off below this share changes no sRGB step. */
const faintest = 0.01;

/** The coupon's colours with rust and run-off painted on, and what was painted. */
export function rusted(piece: SteelPiece, look: Pick<Look, "rustedPercent" | "edgePercent">) {
  const { width, height, face, onset, mottle } = piece;
  const ends = {
    face: endOf(piece.faceOrder, look.rustedPercent),
    edge: endOf(piece.edgeOrder, look.edgePercent),
  };
  const colours = piece.rgb.slice();
  const runOff = new Float32Array(width);
  for (let y = 0, at = 0; y < height; y++) {
    const rowOnFace = y >= face.top && y < face.bottom;
    for (let x = 0; x < width; x++, at++) {
      const end = rowOnFace && x >= face.left && x < face.right ? ends.face : ends.edge;
      if (onset[at]! < end.before) {
        runOff[x] = Math.min(1, runOff[x]! + 0.06);
        paintRust(colours, at, end.before - onset[at]!, mottle[at]!);
      } else if (runOff[x]! > faintest) {
        const strength = runOff[x]! * (0.7 + 0.5 * mottle[at]!);
        for (let channel = 0; channel < 3; channel++) colours[at * 3 + channel]! += strength * stainRgb[channel]!;
        runOff[x]! *= 0.988;
      }
    }
  }
  const truth = {
    rustedPercent: ends.face.percent,
    edgePercent: piece.edgeOrder.length === 0 ? null : ends.edge.percent,
  };
  return { colours, truth };
}

/** Points that rust before this value are the wanted percentage, to the nearest point. */
function endOf(order: Float32Array, percent: number): { before: number; percent: number } {
  const points = Math.round((percent / 100) * order.length);
  const before = points === 0 ? Number.NEGATIVE_INFINITY : (order[points] ?? Number.POSITIVE_INFINITY);
  return { before, percent: (100 * points) / order.length };
}

function paintRust(colours: Float32Array, at: number, since: number, mottle: number): void {
  const age = Math.min(1.999, (Number.isFinite(since) ? since : 1) * 5 + 0.35 * (mottle + 1));
  const younger = rustRgb[Math.floor(age)]!;
  const older = rustRgb[Math.floor(age) + 1]!;
  const share = age - Math.floor(age);
  for (let channel = 0; channel < 3; channel++) {
    const rust = (younger[channel]! * (1 - share) + older[channel]! * share) * (1 + 0.16 * mottle);
    // A little of the steel's own light and shade shows through.
    colours[at * 3 + channel] = 0.88 * rust + 0.12 * colours[at * 3 + channel]!;
  }
}

const captionText = "rendered, invented";

function caption(image: RgbImage): void {
  const cell = Math.max(1, Math.round(image.widthPx / 500));
  const left = image.widthPx - (captionText.length * letterPitch + 2) * cell;
  const top = image.heightPx - (letterRows + 2) * cell;
  for (const { column, row } of inkedCells(captionText))
    for (let dy = 0; dy < cell; dy++)
      for (let dx = 0; dx < cell; dx++) {
        const at = (top + row * cell + dy) * image.widthPx + left + column * cell + dx;
        image.rgb.fill(40, at * 3, at * 3 + 3);
      }
}
