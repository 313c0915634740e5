/**
 * Mean of each pixel's square neighbourhood, by running sums: the same cost for every radius. Windows end at the picture's edge.
 *
 * Units    px; the plane's own unit
 * Source   running sums over a square window
 * Status   computed
 */
import { addressOf, inRoom, kept, lentDoubles, lentFloats, pixelLoops } from "./pixel-loops.ts";

/** Mean over (2 radius + 1)² px, less where the picture ends; the unit of the plane stays. */
export function boxMean(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  return kept(() => {
    const mean = lentFloats(plane.length);
    inRoom(() => {
      const columns = lentDoubles(widthPx).byteOffset;
      // The smallest window is by far the most asked for and has its own loop.
      if (radiusPx === 1 && widthPx > 1)
        pixelLoops().meanOver3(addressOf(plane), widthPx, heightPx, mean.byteOffset, columns);
      else pixelLoops().boxMean(addressOf(plane), widthPx, heightPx, radiusPx, mean.byteOffset, columns);
    });
    return mean;
  });
}
