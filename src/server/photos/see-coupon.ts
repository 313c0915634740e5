/** From a decoded photograph to the coupon seen square on, by card or by hand, and whether the picture is good enough to be rated. */
import type { FoundByCard, KnownLight, MeasurementRequest, PhotoRefusal } from "../../api/photo.ts";
import { faceRectangle } from "../../core/vision/assessed-face.ts";
import { balanced } from "../../core/vision/card-light.ts";
import { planeAbove } from "../../core/vision/card-pose.ts";
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "../../core/vision/coupon-plane.ts";
import { type FoundCard, findCard } from "../../core/vision/find-card.ts";
import { findCoupon, isTrusted } from "../../core/vision/find-coupon.ts";
import { composed, homographyOf, inverted } from "../../core/vision/homography.ts";
import { balancedByPatch, type PatchLight, patchLight } from "../../core/vision/patch-light.ts";
import { type GateCheck, gateSentence, glarePercentOf, photoGate } from "../../core/vision/photo-gate.ts";
import { printError } from "../../core/vision/print-error.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import { type RectifiedCoupon, rectify } from "../../core/vision/rectify.ts";
import { type Shrink, workingShrink } from "../../core/vision/working-size.ts";
import { cardSight, couponSight, windowCorners, windowSize } from "./photo-sight.ts";
import type { DecodedPhoto, OpenedPhoto, PhotoPart } from "./read-photo.ts";

export type HowMeasured = Omit<MeasurementRequest, "id" | "photo">;

/** As they cross the boundary: plain arrays that may be written to. */
type Corners = NonNullable<MeasurementRequest["cornersPx"]>;

export type SeenCoupon = {
  image: RgbImage;
  pxPerMm: number;
  cornersPx: Corners;
  card: FoundByCard | null;
  gate: GateCheck[];
  /** What told the colour of the light. */
  lightBy: Exclude<KnownLight, { by: "nothing" }> | { by: "nothing" };
};

/** A picture as decoded, and the shop's print error, which no picture tells by itself. */
type Sighted = { photo: DecodedPhoto; printScale: number; readNearer?: OpenedPhoto["part"] };

/** A part of the photograph less shrunk than the picture that is searched, and where in the whole it begins, px. */
type NearerPicture = { image: RgbImage; left: number; top: number; shrink: Shrink };

/** Without corners in the request the card must show where the coupon lies; with them, a card in the picture still gives its light. */
export async function seeCoupon(
  { photo, printScale, readNearer }: Sighted,
  request: HowMeasured,
): Promise<SeenCoupon | PhotoRefusal> {
  const card = findCard(photo, printScale);
  const { cornersPx } = request;
  const seen = cornersPx
    ? await seenAt(photo, request, scaled(cornersPx, 1 / photo.shrink), card, null)
    : card
      ? await seenByCard(photo, request, card, readNearer)
      : refusal("no card", noCard, null, []);
  // Corners are px of the photograph as it was taken, however small it was decoded.
  return seen.cornersPx === null ? seen : { ...seen, cornersPx: scaled(seen.cornersPx, photo.shrink) };
}

const scaledPoint = ([x, y]: CornersPx[number], by: number): [number, number] => [x * by, y * by];
const scaled = (corners: CornersPx, by: number) => corners.map((corner) => scaledPoint(corner, by)) as Corners;

const noCard = "No measuring card was found in this picture. Show the whole card, or set the coupon's corners by hand.";

async function seenByCard(
  photo: DecodedPhoto,
  request: HowMeasured,
  card: FoundCard,
  readNearer?: OpenedPhoto["part"],
): Promise<SeenCoupon | PhotoRefusal> {
  const { lengthMm, widthMm } = request.sizeMm;
  // On the card the longer side lies across; where the number reads along the shorter one, its top points to the left.
  const upright = lengthMm >= widthMm;
  const lying: SizeMm = upright ? request.sizeMm : { lengthMm: widthMm, widthMm: lengthMm };
  const thicknessMm = request.thicknessMm ?? 0;
  // The decoder has its own thread: it reads the card's window nearer while the coupon and its light are looked for in it.
  const nearer = readNearer ? nearerWindow(photo, card, thicknessMm, readNearer) : null;
  const coupon = findCoupon(photo, card, photo, { ...lying, thicknessMm });
  if (!coupon || !isTrusted(coupon, lying)) {
    // A shadow or a blur hides edges: then that is what is wrong, and corners by hand would not help.
    const sight = cardSight(photo, card, windowCorners(card));
    const gate = photoGate({ ...sight, pxPerMm: sight.pxPerMm * photo.shrink, glarePercent: 0 });
    const sentence = gateSentence(gate);
    if (sentence !== null) return refusal("gate", sentence, null, gate);
  }
  if (!coupon)
    return refusal("no coupon", "The card was found, but no coupon in its window. Set its corners by hand.", null, []);
  const [a, b, c, d] = coupon.cornersPx.map(([x, y]): [number, number] => [x, y]) as Corners;
  const corners: Corners = upright ? [a, b, c, d] : [d, a, b, c];
  const measured: SizeMm = upright
    ? coupon.sizeMm
    : { lengthMm: coupon.sizeMm.widthMm, widthMm: coupon.sizeMm.lengthMm };
  if (!isTrusted(coupon, lying)) return refusal("no coupon", otherSize(measured, request.sizeMm), corners, []);
  const found = {
    name: card.card.name,
    printScale: card.printScale,
    couponMm: measured,
    confidence: coupon.confidence,
  };
  return seenAt(photo, request, corners, card, found, nearer);
}

function otherSize(measured: SizeMm, planned: SizeMm): string {
  const { lengthMm, widthMm } = planned;
  const sizes = `The coupon on the card measures ${measured.lengthMm.toFixed(1)} × ${measured.widthMm.toFixed(1)} mm, the plan says ${lengthMm} × ${widthMm} mm.`;
  const besideShadow = "whether its corners were found beside a shadow, and set them by hand.";
  const off = printError(measured, planned);
  if (off === null) return `${sizes} Look ${besideShadow}`;
  const { print, leastPercent, mostPercent, isAlike } = off;
  const how = print === "too small" ? "too small (“fit to page”)" : "too large";
  const ruler =
    "Measure its ruler of 100 mm and write down what it reads where the card is printed, or print it anew at 100 %.";
  if (isAlike)
    return `${sizes} Both sides are off alike, as if the card were printed ${((leastPercent + mostPercent) / 2).toFixed(1)} % ${how}. ${ruler}`;
  const sides = print === "too small" ? "too long" : "too short";
  return `${sizes} Both sides are ${sides}, as on a card printed ${leastPercent.toFixed(1)} to ${mostPercent.toFixed(1)} % ${how}. ${ruler} If it is not the print, look ${besideShadow}`;
}

async function seenAt(
  photo: DecodedPhoto,
  request: HowMeasured,
  cornersPx: Corners,
  card: FoundCard | null,
  foundByCard: FoundByCard | null,
  nearer: Promise<NearerPicture> | null = null,
): Promise<SeenCoupon | PhotoRefusal> {
  const byCard = card && { card, sight: cardSight(photo, card, cornersPx) };
  // The card's paper lies all round the coupon: where it is in sight it knows the light better than one place.
  const patch =
    byCard || !request.neutralPx ? null : patchLight(photo, scaledPoint(request.neutralPx, 1 / photo.shrink));
  if (patch && "unfit" in patch) return refusal("white place", patch.unfit, cornersPx, []);
  const straight = await straightened(photo, nearer, cornersPx, request.sizeMm);
  const image = byCard
    ? balanced(straight.image, byCard.sight.card.light, toCard(straight.image, cornersPx, byCard.card))
    : patch
      ? balancedByPatch(straight.image, patch)
      : straight.image;
  const face = faceRectangle(image, request.sizeMm, request.edgeBandMm);
  const gate = photoGate({
    ...(byCard?.sight ?? couponSight(photo, cornersPx, request.sizeMm)),
    pxPerMm: pxPerMmInPicture(cornersPx, request.sizeMm) * photo.shrink,
    glarePercent: glarePercentOf(image, face),
  });
  const sentence = gateSentence(gate);
  if (sentence !== null) return refusal("gate", sentence, cornersPx, gate);
  const lightBy = byCard ? { by: "card" as const } : lightByPatch(patch);
  return { image, pxPerMm: straight.pxPerMm, cornersPx, card: foundByCard, gate, lightBy };
}

const lightByPatch = (patch: PatchLight | null) =>
  patch ? { by: "white place" as const, castChroma: patch.castChroma } : { by: "nothing" as const };

/** The coupon square on, from the nearer picture where there is one; `cornersPx` in px of the one that was searched. */
async function straightened(
  photo: DecodedPhoto,
  nearer: Promise<NearerPicture> | null,
  cornersPx: Corners,
  sizeMm: SizeMm,
): Promise<RectifiedCoupon> {
  if (!nearer) return rectify(photo, cornersPx, sizeMm);
  const { image, left, top, shrink } = await nearer;
  const along = (at: number, from: number) => (at * photo.shrink - from) / shrink;
  const there = cornersPx.map(([x, y]) => [along(x, left), along(y, top)]) as Corners;
  return rectify(image, there, sizeMm);
}

/** Round the window, mm: an edge is looked for a little beyond it, too. */
const roundWindowMm = 6;

/** The card's window read less shrunk, where the card was found in a smaller picture than rust wants; null where what there is will do. */
function nearerWindow(
  photo: DecodedPhoto,
  card: FoundCard,
  thicknessMm: number,
  readNearer: OpenedPhoto["part"],
): Promise<NearerPicture> | null {
  const whole = { widthPx: photo.widthPx * photo.shrink, heightPx: photo.heightPx * photo.shrink };
  const raised = { ...card, toPicture: planeAbove(card.toPicture, photo, thicknessMm) };
  const by = workingShrink(whole, windowSize(card), scaled(windowCorners(raised), photo.shrink));
  if (by >= photo.shrink) return null;
  const part = partAround(scaled(windowCorners(raised, roundWindowMm), photo.shrink), whole, by);
  const nearer = readNearer(part, by).then((image) => ({ ...part, image, shrink: by }));
  // What it throws is thrown where it is awaited; before that the photograph may be refused for something else.
  nearer.catch(() => {});
  return nearer;
}

/** The corners' rectangle in multiples of `by`. */
function partAround(corners: Corners, whole: { widthPx: number; heightPx: number }, by: Shrink): PhotoPart {
  const along = (axis: 0 | 1, size: number) => {
    const places = corners.map((corner) => corner[axis] / by);
    const from = Math.max(0, Math.floor(Math.min(...places)));
    const to = Math.min(Math.floor(size / by), Math.ceil(Math.max(...places)));
    return [from * by, (to - from) * by] as const;
  };
  const [left, widthPx] = along(0, whole.widthPx);
  const [top, heightPx] = along(1, whole.heightPx);
  return { left, top, widthPx, heightPx };
}

function refusal(
  why: PhotoRefusal["why"],
  sentence: string,
  corners: Corners | null,
  checks: GateCheck[],
): PhotoRefusal {
  return { refused: true, why, sentence, cornersPx: corners, checks };
}

/** To where on the card (mm) a pixel of the straightened coupon lies; the coupon's height above the card changes its light little. */
function toCard(image: RgbImage, corners: CornersPx, card: FoundCard) {
  const { widthPx, heightPx } = image;
  const straight = [
    [0, 0],
    [widthPx, 0],
    [widthPx, heightPx],
    [0, heightPx],
  ] as const;
  return composed(inverted(card.toPicture), homographyOf(straight, corners));
}
