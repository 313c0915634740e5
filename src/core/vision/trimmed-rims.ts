/**
 * Rust marked by the model, cut back to where a pixel holds at least as much rust as steel.
 *
 * The model looks at means around a pixel, so the steel just beside a spot passes for its rim and small spots come out too large. In
 * linear light a pixel that is part rust, part steel lies on the straight line between the two, at its share of rust. So each
 * pixel near the rim is laid on the line between the rust and the steel around it, and stays from half way on. Steel is only what the
 * model is sure of: between rust and rust that it half overlooks there is nothing to trim.
 *
 * Units    sRGB bytes and marks per px
 * Source   mixing of light by area; the reach is our own, tried on rendered coupons
 * Status   computed
 */
import { linearLight } from "./lab-image.ts";
import { addressOf, inRoom, lentBytes, pixelLoops, placeOf } from "./pixel-loops.ts";
import type { RgbImage } from "./raster.ts";

/** How far inside the marked rim may be steel, px. */
const rimPx = 2;
/** Rust and steel are the means over what lies this near, px; steel beside the rim is not free of rust yet. */
const reachPx = 4;
/** What the loops keep of each column, bytes. */
const rimRoomBytes = 36;

/** Says in which picture (sRGB bytes) the loops trim rims next; what they keep of it is lent. */
export function takePictureForRims({ widthPx, heightPx, rgb }: RgbImage): void {
  const room = lentBytes(rimRoomBytes * widthPx);
  pixelLoops().takePicture(addressOf(rgb), addressOf(linearLight), widthPx, heightPx, room.byteOffset);
}

/**
 * Gives rim pixels that are more steel than rust the log odds `spared`, in place (lent); `marked` says which pixels (not 0) are rust
 * so far. Steel is what is not marked and has log odds below `steelBelow`.
 */
export function trimRimsByLight(
  logOdds: Float32Array,
  marked: Uint8Array,
  image: RgbImage,
  { steelBelow, spared }: { steelBelow: number; spared: number },
): void {
  inRoom(() => {
    takePictureForRims(image);
    pixelLoops().trimByLight(addressOf(marked), placeOf(logOdds), steelBelow, spared, rimPx, reachPx);
  });
}
