/**
 * The coupon in the card's window: its four corners in the picture, and its size as measured.
 *
 * What differs from the paper around gives the rough place. Then each side is looked for as the straight line along which the light
 * changes. A raised coupon's shadow makes a second such line beside the true one, so of all pairs of opposite lines the one is taken
 * whose distance comes nearest to the size in the plan; where none comes near, the paper's hue tells where the shadow ends. Last, the
 * sides are fitted in the picture itself, finer than a pixel.
 *
 * Units    mm on the card and on the coupon, px in the picture
 * Source   our own
 * Status   computed
 */
import { requirePositive } from "../input-error.ts";
import { type Camera, planeAbove } from "./card-pose.ts";
import type { CornersPx, SizeMm } from "./coupon-plane.ts";
import { commonTurn, coupleOfLines, lineAcross, type SideLine, sideLines, withHue } from "./coupon-sides.ts";
import { edgeCrossing } from "./edge-profile.ts";
import type { FoundCard } from "./find-card.ts";
import { fittedLine, type Line, meeting } from "./fitted-line.ts";
import { type Homography, inverted, mapped, type Point } from "./homography.ts";
import { hueLine } from "./hue-line.ts";
import type { RectangleMm } from "./measuring-card.ts";
import type { RgbImage } from "./raster.ts";
import { roughCoupon } from "./rough-coupon.ts";
import { type SideStrip, sideStrip } from "./side-strips.ts";
import { windowImage } from "./window-image.ts";

export type FoundCoupon = {
  /** Clockwise from the top left as the card lies: length along the first side. */
  cornersPx: CornersPx;
  /** As measured on the plane of the coupon's top. */
  sizeMm: SizeMm;
  /** 0 to 1: the least share of a side along which its edge was found where its line runs. */
  confidence: number;
};

/** Below this confidence, or farther from the size in the plan than this, the corners are set by hand. */
const leastConfidence = 0.5;
/** A shadow's rim taken for steel makes a coupon larger, never smaller: on that side less is believed. */
const mostOffSize = { smaller: { share: 0.01, mm: 0.5 }, larger: { share: 0.008, mm: 0.4 } };

/** Whether the corners found may be taken without a hand: clear edges, and the size that the plan says. */
export function isTrusted({ sizeMm, confidence }: FoundCoupon, expected: SizeMm): boolean {
  const fits = (measuredMm: number, plannedMm: number) => {
    const { share, mm } = measuredMm > plannedMm ? mostOffSize.larger : mostOffSize.smaller;
    return Math.abs(measuredMm - plannedMm) <= Math.max(mm, share * plannedMm);
  };
  return (
    confidence >= leastConfidence && fits(sizeMm.lengthMm, expected.lengthMm) && fits(sizeMm.widthMm, expected.widthMm)
  );
}

/** Scale of the copy in which the coupon is looked for. */
const searchPxPerMm = 1.5;

/** Null where nothing in the window looks like a coupon. `expected`: size and thickness from the plan, its length lying across the card. */
export function findCoupon(
  photo: RgbImage,
  found: FoundCard,
  camera: Camera,
  expected: SizeMm & { thicknessMm: number },
): FoundCoupon | null {
  requirePositive("expected.lengthMm", expected.lengthMm);
  requirePositive("expected.widthMm", expected.widthMm);
  const top = planeAbove(found.toPicture, camera, expected.thicknessMm);
  const rough = roughCoupon(windowImage(photo, top, windowOf(found), searchPxPerMm));
  if (!rough) return null;
  const [upper, right, lower, left] = rough.corners.map((from, at) =>
    sideStrip(photo, top, { from, to: rough.corners[(at + 1) % 4]! }),
  ) as [SideStrip, SideStrip, SideStrip, SideStrip];
  const turn = commonTurn([upper, right, lower, left]);
  const across = coupleOf(left, right, { turn, expectedMm: expected.lengthMm });
  const down = coupleOf(upper, lower, { turn, expectedMm: expected.widthMm });
  if (!across || !down) return null;
  const fitted = [
    fittedSide(photo, top, { strip: upper, turn, ...down.first }),
    fittedSide(photo, top, { strip: right, turn, ...across.second }),
    fittedSide(photo, top, { strip: lower, turn, ...down.second }),
    fittedSide(photo, top, { strip: left, turn, ...across.first }),
  ];
  return asMeasured(fitted, top);
}

function windowOf({ card: { window }, printScale }: FoundCard): RectangleMm {
  return {
    xMm: window.xMm * printScale,
    yMm: window.yMm * printScale,
    widthMm: window.widthMm * printScale,
    heightMm: window.heightMm * printScale,
  };
}

/** A line, and how far to both sides of it its edge may be looked for, mm: less where another line runs beside it. */
type Chosen = { line: SideLine; reachMm: number };

/** Lines of light this much too far apart are a shadow's rim, and the hue is asked, mm; not before: rust beside an edge has a hue as well. */
const hueFromMm = 0.25;

function coupleOf(
  one: SideStrip,
  other: SideStrip,
  { turn, expectedMm }: { turn: number; expectedMm: number },
): { first: Chosen; second: Chosen } | null {
  const across: Point = [other.middle[0] - one.middle[0], other.middle[1] - one.middle[1]];
  const apartMm = Math.abs(across[0] * one.inwards[0] + across[1] * one.inwards[1]) * Math.cos(turn);
  const lines = [one, other].map((strip) => sideLines(strip, turn));
  const byLight = coupleOfLines(lines[0]!, lines[1]!, { apartMm, expectedMm });
  const hued = () => [one, other].map((strip, at) => withHue(lines[at]!, hueLine(strip, turn)));
  const fits = byLight !== null && byLight.offMm <= hueFromMm;
  const [first, second] = fits ? lines : hued();
  const couple = coupleOfLines(first!, second!, { apartMm, expectedMm });
  return couple && { first: chosenOf(couple.first, first!), second: chosenOf(couple.second, second!) };
}

const searchReachMm = 0.9;
/** A line beside, of at least this share of the strength, would be taken for the edge. */
const besideShare = 0.25;

function chosenOf(line: SideLine, lines: readonly SideLine[]): Chosen {
  const beside = lines.filter((other) => other !== line && other.strength > besideShare * line.strength);
  const away = beside.map((other) => Math.abs(other.offsetMm - line.offsetMm) / 2);
  return { line, reachMm: Math.min(searchReachMm, ...away) };
}

type FittedSide = { line: Line; share: number } | null;

function asMeasured([upper, right, lower, left]: readonly FittedSide[], top: Homography): FoundCoupon | null {
  if (!upper || !right || !lower || !left) return null;
  const a = meeting(left.line, upper.line);
  const b = meeting(upper.line, right.line);
  const c = meeting(right.line, lower.line);
  const d = meeting(lower.line, left.line);
  if (!a || !b || !c || !d) return null;
  const back = inverted(top);
  const [ma, mb, mc, md] = [mapped(back, a), mapped(back, b), mapped(back, c), mapped(back, d)];
  return {
    cornersPx: [a, b, c, d],
    sizeMm: {
      lengthMm: (distance(ma, mb) + distance(md, mc)) / 2,
      widthMm: (distance(ma, md) + distance(mb, mc)) / 2,
    },
    confidence: Math.min(upper.share, right.share, lower.share, left.share),
  };
}

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(ax - bx, ay - by);

const linesPerSide = 60;
const leastStep = 0.06;
/** With less room than this between two lines, a place by itself cannot tell them apart. */
const leastReachMm = 0.45;

/** A side in the picture (px), clockwise round the coupon: the steel lies to the right of the way along. */
function fittedSide(
  photo: RgbImage,
  top: Homography,
  { strip, turn, line: chosen, reachMm }: Chosen & { strip: SideStrip; turn: number },
): FittedSide {
  const ends = lineAcross(strip, turn, chosen.offsetMm);
  const [from, to] = [mapped(top, ends[0]), mapped(top, ends[1])];
  const length = distance(from, to);
  const along: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  // The mean over the whole strip tells a faint edge beside a strong one better than each place by itself.
  const byStrip = { line: { point: from, along, kept: 0, rms: 0 }, share: chosen.share };
  if (chosen.by === "hue" || reachMm < leastReachMm) return byStrip;
  const pxPerMm = length / distance(...ends);
  const points = Array.from({ length: linesPerSide }, (_, step) => {
    const way = length * (0.06 + (0.88 * (step + 0.5)) / linesPerSide);
    const middle: Point = [from[0] + way * along[0], from[1] + way * along[1]];
    return edgeCrossing(photo, { middle, direction: [-along[1], along[0]], reachPx: reachMm * pxPerMm, leastStep });
  }).flatMap((crossing) => (crossing ? [crossing.point] : []));
  const line = fittedLine(points, 0.12 * pxPerMm);
  return line && line.kept >= linesPerSide / 2 ? { line, share: line.kept / linesPerSide } : byStrip;
}
