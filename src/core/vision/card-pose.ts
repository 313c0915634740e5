/**
 * How the card lies before the camera: its tilt, its distance, and where a plane above it (the top of a coupon) falls in the picture.
 *
 * Units    mm, px, degrees
 * Source   pinhole camera, principal point in the middle of the picture
 * Status   computed
 */
import { requireNotNegative, requirePositive } from "../input-error.ts";
import { type Homography, type Point, stretchAt } from "./homography.ts";

/** Focal length of a phone's main camera as a share of the picture's diagonal: 26 mm on the 43.3 mm diagonal of the 35 mm frame. */
export const usualFocalShare = 26 / 43.27;

export type Camera = { widthPx: number; heightPx: number; focalPx: number };

/** Angle between the card's upright and the line of sight at a point of the card, in degrees, from how a small circle there is squeezed. */
export function tiltDeg(cardToPicture: Homography, atMm: Point): number {
  const { most, least } = stretchAt(cardToPicture, atMm);
  return (Math.acos(Math.min(1, least / most)) * 180) / Math.PI;
}

/** The map of the plane `heightMm` above the card, nearer to the camera, in the card's own mm; a wrong focal length errs by its share. */
export function planeAbove(cardToPicture: Homography, camera: Camera, heightMm: number): Homography {
  requirePositive("camera.focalPx", camera.focalPx);
  requireNotNegative("heightMm", heightMm);
  const { first, second, third, place } = cameraColumns(cardToPicture, camera);
  // x to the right and y down make the card's third direction point away from the camera: above is against it.
  const lifted = place.map((value, at) => value - heightMm * third[at]!) as unknown as Three;
  const { focalPx, widthPx, heightPx } = camera;
  const back = ([x, y, z]: Three): Three => [focalPx * x + (widthPx / 2) * z, focalPx * y + (heightPx / 2) * z, z];
  const [a, b, c] = [back(first), back(second), back(lifted)];
  return [a[0], b[0], c[0], a[1], b[1], c[1], a[2], b[2], c[2]];
}

type Three = readonly [number, number, number];

/** Columns of rotation and place of the card, in mm before the camera. */
function cameraColumns(h: Homography, { focalPx, widthPx, heightPx }: Camera) {
  const column = (at: 0 | 1 | 2): Three => [
    (h[at]! - (widthPx / 2) * h[6 + at]!) / focalPx,
    (h[3 + at]! - (heightPx / 2) * h[6 + at]!) / focalPx,
    h[6 + at]!,
  ];
  const [one, two, three] = [column(0), column(1), column(2)];
  const length = (Math.hypot(...one) + Math.hypot(...two)) / 2;
  const scaled = (values: Three): Three => [
    (values[0] * Math.sign(three[2])) / length,
    (values[1] * Math.sign(three[2])) / length,
    (values[2] * Math.sign(three[2])) / length,
  ];
  const [first, second, place] = [scaled(one), scaled(two), scaled(three)];
  const cross: Three = [
    first[1] * second[2] - first[2] * second[1],
    first[2] * second[0] - first[0] * second[2],
    first[0] * second[1] - first[1] * second[0],
  ];
  const norm = Math.hypot(...cross);
  const third: Three = [cross[0] / norm, cross[1] / norm, cross[2] / norm];
  return { first, second, third, place };
}
