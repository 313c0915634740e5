/**
 * Marks rust in a picture by the learned model: at a limited number of pixels, brought back to the picture's own size.
 *
 * The model saw pictures of up to 1000 px on the longer side; a larger one is looked at in that size and the log odds are
 * drawn out between its pixels. On a coupon of 100 mm that is 10 px per mm: a spot of a third of a mm is three pixels wide.
 *
 * Units    sRGB bytes in; log odds and a mark per pixel out
 * Source   our own
 * Status   computed
 */
import { addressOf, inRoom, kept, lentBytes, lentWholes, pixelLoops, placeOf } from "./pixel-loops.ts";
import { type RgbImage, type RustMask, requireSameSize } from "./raster.ts";
import { isGrey, type RustFeatures, rustFeatures } from "./rust-features.ts";
import { logOddsOf, type RustModel, sureLogOdds } from "./rust-model.ts";
import { seededPlaces, seededToMarks } from "./seeded-places.ts";
import { shrunk } from "./shrink.ts";
import { trimRimsByLight } from "./trimmed-rims.ts";
import { logOddsOnUnknownSurface, placesOnUnknownSurface } from "./unknown-surface.ts";

/** The size in which pictures were learned, px on the longer side. */
export const modelLongestPx = 1000;

/** A spot counts when some place in it is surer than the limit by this much. */
const seedAddsLogOdds = 1.5;

/**
 * A spot has at least as many pixels as are averaged before the model looks at one: what is smaller is grain or a trace of JPEG. At 8 px per mm
 * that is a spot of 0.4 mm, 0.003 % of a face of 90 by 50 mm.
 */
export const leastPixels = 9;

/** From this share of the face on (by the colour rule) the model compares rust with rust and may miss most of it. */
const muchOfFace = 0.25;
/** A face of which this share is of no more than this a*b* chroma stands in neutral light, however much of it is rust. */
const neutralLight = { leastShare: 0.1, mostChroma: 4 };
/** On a face that is not grey the rule is asked how far the area may reach once the model itself calls this share rust. */
const leastOfFace = 0.1;

export type FoundRust = RustMask & {
  /** Log odds of rust by the model, one per pixel. */
  logOdds: Float32Array;
};

/**
 * Rust in an sRGB picture, as log odds and as a mask of the same size in px. `counted` (not 0 = counted) says which part is the surface in
 * question, so that a background does not pass for the coupon's own steel; null: all of the picture. It marks nothing as left out.
 */
export function rustByModel(
  image: RgbImage,
  counted: Uint8Array | null,
  pxPerMm: number | null,
  model: RustModel,
): FoundRust {
  const { widthPx, heightPx } = image;
  const small = shrunk(image, modelLongestPx);
  const scale = pxPerMm === null ? null : (pxPerMm * small.widthPx) / image.widthPx;
  const face = counted && nearest(counted, image, small);
  return kept(() => {
    // What a shop taught by strokes may be cold, too: its own model looks at every cell.
    const features = rustFeatures(small, face, scale, model.heedsColourRule && scale !== null);
    const odds = scale === null ? logOddsOnUnknownSurface(features, face, model) : logOddsOf(features, model);
    if (model.heedsColourRule && scale !== null) heedColourRule(odds, features, face, model);
    if (scale !== null) trimRims(odds, small, model);
    const logOdds = drawnOut(odds, small, image);
    const marked =
      scale === null
        ? placesOnUnknownSurface(logOdds, counted, widthPx, model, leastPixels)
        : marksOf(logOdds, widthPx, model);
    return { widthPx, heightPx, marks: marked, logOdds };
  });
}

/** On a coupon of known scale: what is more steel than rust is taken just below the limit. */
function trimRims(logOdds: Float32Array, image: RgbImage, model: RustModel): void {
  const steelBelow = model.rustFromLogOdds - sureLogOdds;
  const spared = model.rustFromLogOdds - 0.01;
  trimRimsByLight(logOdds, marksOf(logOdds, image.widthPx, model), image, { steelBelow, spared });
}

/**
 * On a coupon the finish is known to be no orange paint, so where the face itself is grey a place of which the model sees
 * nothing and the colour rule does counts, too, just surely enough to be marked. Rims stay the model's, unless much of the face is
 * rust by the rule and the model sees less than half of that. A face without grey is rusted nearly all over or stands in warm light: there
 * the rule only widens the interval. A picture of unknown scale may show anything: there the model's word stands alone.
 */
function heedColourRule(
  logOdds: Float32Array,
  features: RustFeatures,
  face: Uint8Array | null,
  model: RustModel,
): void {
  const { byColour, widthPx, own } = features;
  if (!byColour.includes(1)) return;
  const byModel = marksOf(logOdds, widthPx, model);
  const share = sharesOfFace(byModel, byColour, face);
  const marked = model.rustFromLogOdds + seedAddsLogOdds;
  const isNeutral = isGrey(own) || greyShareOf(features, face) >= neutralLight.leastShare;
  if (isNeutral && share.byRule >= muchOfFace && share.byBoth < share.byRule / 2) raise(logOdds, byColour, marked);
  else if (isGrey(own)) raiseUntouched(logOdds, byColour, byModel, widthPx, marked);
  else if (share.byModel >= leastOfFace) raise(logOdds, byColour, model.rustFromLogOdds - model.limitReach.down + 0.01);
}

/** Where the colour rule says rust, at least these log odds. */
function raise(logOdds: Float32Array, byColour: Uint8Array, least: number): void {
  inRoom(() => pixelLoops().raise(placeOf(logOdds), addressOf(byColour), logOdds.length, least));
}

/** These log odds at the rule's places in which the model sees nothing. */
function raiseUntouched(
  logOdds: Float32Array,
  byColour: Uint8Array,
  byModel: Uint8Array,
  widthPx: number,
  to: number,
): void {
  inRoom(() => {
    const loops = pixelLoops();
    // The rule's places, with seeds in them where the model says rust, too: 1 becomes 2.
    const touched = lentBytes(byColour.length);
    touched.set(byColour);
    loops.addSeeds(touched.byteOffset, addressOf(byModel), touched.length);
    seededToMarks(touched, widthPx, 1);
    loops.raiseUntouched(placeOf(logOdds), addressOf(byColour), touched.byteOffset, touched.length, to);
  });
}

/** What the model, the colour rule and both of them call rust, as shares of the face. */
function sharesOfFace(marked: Uint8Array, byColour: Uint8Array, face: Uint8Array | null) {
  const [onFace, byModel, byRule, byBoth] = inRoom(() => {
    const counts = lentWholes(4);
    const counted = face ? addressOf(face) : 0;
    pixelLoops().countWords(addressOf(marked), addressOf(byColour), counted, marked.length, counts.byteOffset);
    return [...counts];
  }) as [number, number, number, number];
  const share = (count: number) => (onFace === 0 ? 0 : count / onFace);
  return { byModel: share(byModel), byRule: share(byRule), byBoth: share(byBoth) };
}

/** The share of the face that is of hardly any colour. */
function greyShareOf({ a, b }: RustFeatures, face: Uint8Array | null): number {
  const most = neutralLight.mostChroma ** 2;
  let [pixels, grey] = [0, 0];
  for (let at = 0; at < a.length; at++) {
    if (face?.[at] === 0) continue;
    pixels++;
    if (a[at]! * a[at]! + b[at]! * b[at]! <= most) grey++;
  }
  return pixels === 0 ? 0 : grey / pixels;
}

/** A mark per pixel from log odds: from the model's limit on, and only where a surer place belongs to it. */
export function marksOf(logOdds: Float32Array, widthPx: number, model: RustModel): Uint8Array {
  return seededPlaces(logOdds, widthPx, {
    from: model.rustFromLogOdds,
    seedFrom: model.rustFromLogOdds + seedAddsLogOdds,
    leastPixels,
  });
}

type Size = { widthPx: number; heightPx: number };

function nearest(from: Uint8Array, size: Size, to: Size): Uint8Array {
  requireSameSize("counted", { ...size, heightPx: from.length / size.widthPx }, size);
  if (size.widthPx === to.widthPx) return from;
  const taken = new Uint8Array(to.widthPx * to.heightPx);
  for (let row = 0, at = 0; row < to.heightPx; row++) {
    const start = Math.floor(((row + 0.5) * size.heightPx) / to.heightPx) * size.widthPx;
    for (let column = 0; column < to.widthPx; column++, at++)
      taken[at] = from[start + Math.floor(((column + 0.5) * size.widthPx) / to.widthPx)]!;
  }
  return taken;
}

/** Bilinear, from the middles of the small picture's pixels. */
function drawnOut(from: Float32Array, small: Size, to: Size): Float32Array {
  if (small.widthPx === to.widthPx && small.heightPx === to.heightPx) return from;
  const drawn = new Float32Array(to.widthPx * to.heightPx);
  const along = between(to.widthPx, small.widthPx);
  const down = between(to.heightPx, small.heightPx);
  for (let row = 0, at = 0; row < to.heightPx; row++) {
    const upper = down.first[row]! * small.widthPx;
    const lower = down.second[row]! * small.widthPx;
    const share = down.share[row]!;
    for (let column = 0; column < to.widthPx; column++, at++) {
      const left = along.first[column]!;
      const right = along.second[column]!;
      const part = along.share[column]!;
      const above = from[upper + left]! * (1 - part) + from[upper + right]! * part;
      const below = from[lower + left]! * (1 - part) + from[lower + right]! * part;
      drawn[at] = above * (1 - share) + below * share;
    }
  }
  return drawn;
}

/** For each new pixel: the two old ones it lies between and the share of the second. */
function between(size: number, smallSize: number) {
  const first = new Uint32Array(size);
  const second = new Uint32Array(size);
  const share = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const place = Math.min(smallSize - 1, Math.max(0, ((i + 0.5) * smallSize) / size - 0.5));
    first[i] = Math.floor(place);
    second[i] = Math.min(smallSize - 1, Math.floor(place) + 1);
    share[i] = place - Math.floor(place);
  }
  return { first, second, share };
}
