/**
 * A marker's four sides in the full picture: its corners finer than a pixel, and how far blur has drawn its edges out.
 *
 * Units    px; mm on the card
 * Source   our own: a line through half-level crossings along each side, corners where lines meet
 * Status   computed
 */
import type { Quad } from "./dark-quads.ts";
import { edgeCrossing } from "./edge-profile.ts";
import { fittedLine, meeting } from "./fitted-line.ts";
import type { Point } from "./homography.ts";
import { markerModules } from "./marker-codes.ts";
import type { RgbImage } from "./raster.ts";

/**
 * 10 to 90 % width of edges as a share of the marker's side: across the marker's own x (its left and right side) and its own y.
 * The median over the sides; null where too few could be measured.
 */
export type EdgeWidth = { acrossX: number | null; acrossY: number | null };

const linesPerSide = 14;
const leastStep = 0.25;
/** Rounds: the second starts from better corners. */
const rounds = 2;
const leastPoints = 6;

/** The quad with its corners (px) refined; null where its sides are not edges between light and dark. */
export function refinedQuad(photo: RgbImage, quad: Quad): { corners: Quad; edgeWidth: EdgeWidth } | null {
  let corners = quad;
  let edgeWidth: EdgeWidth = { acrossX: null, acrossY: null };
  for (let round = 0; round < rounds; round++) {
    const sides = [0, 1, 2, 3].map((at) => refinedSide(photo, corners, at));
    const [top, right, bottom, left] = sides;
    if (!top || !right || !bottom || !left) return null;
    const met = [
      meeting(left.line, top.line),
      meeting(top.line, right.line),
      meeting(right.line, bottom.line),
      meeting(bottom.line, left.line),
    ];
    const [a, b, c, d] = met;
    if (!a || !b || !c || !d) return null;
    corners = [a, b, c, d];
    edgeWidth = {
      acrossX: medianOrNull([...left.widths, ...right.widths]),
      acrossY: medianOrNull([...top.widths, ...bottom.widths]),
    };
  }
  return { corners, edgeWidth };
}

function refinedSide(photo: RgbImage, corners: Quad, at: number) {
  const from = corners[at]!;
  const to = corners[(at + 1) % 4]!;
  const across = corners[(at + 3) % 4]!;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  // Clockwise as seen, so the dark lies to the right of the way along.
  const inwards: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  /** The marker's extent across this side; the border's module is an eighth of it. */
  const depth = Math.abs((across[0] - from[0]) * inwards[0] + (across[1] - from[1]) * inwards[1]);
  const reachPx = (0.85 * depth) / markerModules;
  const crossings = Array.from({ length: linesPerSide }, (_, step) => {
    const share = 0.1 + (0.8 * (step + 0.5)) / linesPerSide;
    const middle: Point = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    return edgeCrossing(photo, { middle, direction: inwards, reachPx, leastStep });
  }).filter((crossing) => crossing !== null);
  if (crossings.length < leastPoints) return null;
  const line = fittedLine(
    crossings.map(({ point }) => point),
    0.3,
  );
  if (!line || line.kept < leastPoints) return null;
  return { line, widths: crossings.flatMap(({ widthPx }) => (widthPx === null ? [] : [widthPx / depth])) };
}

function medianOrNull(values: readonly number[]): number | null {
  if (values.length < leastPoints) return null;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
