/** The face of a coupon that is judged: without its edges, holes and stamp. */
import { InputError, requireList, requireNotNegative, requirePositive } from "../input-error.ts";

export type CouponFace = {
  lengthMm: number;
  widthMm: number;
  edgeBandMm: number;
  holes: readonly { diameterMm: number; bandMm: number }[];
};

/**
 * Area left for assessment when a band along the edges and round each hole is left out.
 *
 * Method   rating.assessedArea
 * Formula  (length - 2 band)(width - 2 band) - sum of π/4 (diameter + 2 hole band)²
 * Units    mm in, mm² out
 * Source   geometry; leaving out a band is a rule of this project (5 mm, or 6.5 mm in the habit of ASTM B537)
 * Status   common practice
 * Holds    for holes whose rings lie wholly inside the band and apart from each other; report the band with the area
 * Refuses  negative lengths; bands that leave nothing; a ring wider than what the band leaves
 */
export function assessedArea({ lengthMm, widthMm, edgeBandMm, holes }: CouponFace): number {
  requirePositive("lengthMm", lengthMm);
  requirePositive("widthMm", widthMm);
  requireNotNegative("edgeBandMm", edgeBandMm);
  requireList("holes", holes, 0);
  const innerLengthMm = lengthMm - 2 * edgeBandMm;
  const innerWidthMm = widthMm - 2 * edgeBandMm;
  if (innerLengthMm <= 0 || innerWidthMm <= 0)
    throw new InputError("edgeBandMm", edgeBandMm, "a band that leaves something of the face to assess");
  const rings = holes.map((hole, at) => ringDiameter(hole, at, Math.min(innerLengthMm, innerWidthMm)));
  const areaMm2 = innerLengthMm * innerWidthMm - rings.reduce((sum, ring) => sum + (Math.PI / 4) * ring * ring, 0);
  if (areaMm2 <= 0) throw new InputError("holes", holes, "holes that leave something of the face to assess");
  return areaMm2;
}

function ringDiameter(hole: { diameterMm: number; bandMm: number }, at: number, roomMm: number): number {
  requirePositive(`holes[${at}].diameterMm`, hole?.diameterMm);
  requireNotNegative(`holes[${at}].bandMm`, hole.bandMm);
  const ring = hole.diameterMm + 2 * hole.bandMm;
  if (ring > roomMm)
    throw new InputError(`holes[${at}].bandMm`, hole.bandMm, `a ring of at most ${roomMm} mm, so that it lies inside`);
  return ring;
}
