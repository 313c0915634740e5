/**
 * How far the rusted percentage of a picture may be off, and which grades that spans.
 *
 * Two things are counted. The limit: on photographs left out of the learning, the limit of log odds that would have given the
 * outlined area lay within the model's `limitReach` of the one used, nine times in ten; so the area is counted again at both
 * ends. The blocks: where the odds of a block's pixels add up to more or less rust than was marked, that block may be off by as
 * much; blocks are taken as independent of each other.
 *
 * Units    log odds per pixel in; % of the counted area out
 * Source   our own; the two parts are added as squares
 * Status   computed
 */
import { InputError, requireWhole } from "../input-error.ts";
import { addressOf, inRoom, lentDoubles, lentWholes, pixelLoops } from "./pixel-loops.ts";
import { marks, requireSameSize } from "./raster.ts";
import type { FoundRust } from "./rust-by-model.ts";
import type { RustModel } from "./rust-model.ts";

export type PercentWithLimits = {
  percent: number;
  lower: number;
  upper: number;
  /** Share of such intervals that should hold the truth. */
  confidence: number;
};

/** Blocks along and across the picture. */
const blocksAcross = 10;
/** Normal quantile of 90 %, two-sided. */
const quantile90 = 1.645;

/**
 * Rusted percent of the counted part with its lower and upper limit at 90 %. `counted` has a byte per pixel, 0 where it is left out.
 * Refuses a picture with nothing counted.
 */
export function rustUncertainty(found: FoundRust, counted: Uint8Array, model: RustModel): PercentWithLimits {
  requireWhole("found.widthPx", found.widthPx, 1);
  requireSameSize("counted", { widthPx: found.widthPx, heightPx: counted.length / found.widthPx }, found);
  const { lower, upper, marked, pixels, blockError } = sums(found, counted, model);
  if (pixels === 0) throw new InputError("counted", "empty", "at least one counted pixel");
  const percentOf = (count: number) => (100 * count) / pixels;
  const percent = percentOf(marked);
  const byBlocks = percentOf(quantile90 * blockError);
  const away = (end: number) => Math.hypot(percentOf(end) - percent, byBlocks);
  return {
    percent,
    lower: Math.max(0, percent - away(lower)),
    upper: Math.min(100, percent + away(upper)),
    confidence: 0.9,
  };
}

/** Chance by log odds in steps of 1/64, from -16 to 16: nearer than the model is right. Beyond, nothing is in doubt. */
const chances = Float64Array.from({ length: 2049 }, (_, step) => 1 / (1 + Math.exp(16 - step / 64)));
chances[0] = 0;
chances[2048] = 1;

/** Counts at the mask and at both ends of the limit, and the blocks' own doubt: root of the sum of squares, in pixels. */
function sums({ widthPx, heightPx, logOdds, marks: mask }: FoundRust, counted: Uint8Array, model: RustModel) {
  const { rustFromLogOdds, limitReach } = model;
  return inRoom(() => {
    const counts = lentWholes(4);
    const doubt = lentDoubles(blocksAcross * blocksAcross).fill(0);
    pixelLoops().countDoubt(
      ...[addressOf(logOdds), addressOf(mask), addressOf(counted), widthPx, heightPx, blocksAcross],
      ...[rustFromLogOdds, limitReach.up, limitReach.down, marks.rust, marks.leftOut],
      ...[addressOf(chances), doubt.byteOffset, counts.byteOffset],
    );
    const [lower, upper, marked, pixels] = [...counts] as [number, number, number, number];
    return { lower, upper, marked, pixels, blockError: Math.sqrt(doubt.reduce((sum, one) => sum + one * one, 0)) };
  });
}
