/** Where things stand in the figure of chances. */
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import type { SimulatedShare } from "../../core/trial/simulation-tally.ts";

const margin = { leftPx: 44, rightPx: 78, topPx: 10, bottomPx: 40 } as const;
const plotPx = 180;
/** Labels at the ends of two lines that meet stand one above the other. */
const labelGapPx = 16;

type Point = { each: number; chance: SimulatedShare };

/** From 1 coupon to `most` across, from 0 to 1 upwards; a range control of the same width lies exactly under it. */
export function chancePlaces({ most, widthPx }: { most: number; widthPx: number }) {
  const left = margin.leftPx;
  const right = widthPx - margin.rightPx;
  const x = (each: number) => left + ((each - 1) / (most - 1)) * (right - left);
  const y = (share: number) => margin.topPx + (1 - share) * plotPx;
  return {
    left,
    right,
    heightPx: margin.topPx + plotPx + margin.bottomPx,
    x,
    y,
    ticks: Array.from({ length: most }, (_, at) => at + 1).filter(
      (each) => each === 1 || each % (most > 20 ? 4 : 2) === 0,
    ),
    /** Which number of coupons a point of the figure stands for. */
    eachAt: (px: number) => Math.min(most, Math.max(1, Math.round(1 + ((px - left) / (right - left)) * (most - 1)))),
    /** Two standard errors of the simulation to both sides. */
    band: (points: readonly Point[]) => {
      const edge = (side: 1 | -1) =>
        points.map(({ each, chance }) => {
          const share = Math.min(1, Math.max(0, chance.share + side * 2 * chance.error));
          return `${x(each)},${y(share)}`;
        });
      return [...edge(1), ...edge(-1).reverse()].join(" ");
    },
    labels: (ends: readonly { line: BetterOnes; last: Point | null }[]) => {
      const known = ends.flatMap(({ line, last }) => (last ? [{ line, y: y(last.chance.share) }] : []));
      const [first, second] = known;
      if (!first || !second || Math.abs(first.y - second.y) >= labelGapPx) return known;
      const middle = (first.y + second.y) / 2;
      return [
        { ...first, y: middle - labelGapPx / 2 },
        { ...second, y: middle + labelGapPx / 2 },
      ];
    },
  };
}
