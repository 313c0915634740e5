import { beforeAll, describe, expect, test } from "vitest";
import { renderCard } from "../../../tests/rendered-card.ts";
import { tapePlane } from "../../../tests/rendered-tape.ts";
import { findCard } from "../../core/vision/find-card.ts";
import { homographyOf, mapped, type Point } from "../../core/vision/homography.ts";
import type { TapePicture } from "../../core/vision/tape-laid-over.ts";
import { tapeReading } from "../../core/vision/tape-reading.ts";
import { tapeGate } from "./tape-gate.ts";
import { inOneLight } from "./tape-light.ts";

const pattern = { form: "cross-cut", cuts: 6, spacingMm: 2 } as const;
const plane = tapePlane({
  ...{ seed: 9, pattern, primer: "grey", substrate: "phosphate", loss: { percent: 24 } },
  ...{ tiltDeg: 0, uneven: 0 },
});
const unitSquare: Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/** A lattice on a coupon that lies on the card, in the light of a window or of a lamp. */
function onCard(which: "before" | "after", tint: readonly [number, number, number]): TapePicture {
  const { widthPx, heightPx, rgb, couponCornersPx } = renderCard({
    ...{ seed: which === "before" ? 3 : 4, card: "small", widthPx: 1900, fills: 0.6, tiltDeg: 6 },
    coupon: { piece: plane, colours: plane[which], thicknessMm: 1 },
    light: { tint },
  });
  const toPicture = homographyOf(unitSquare, couponCornersPx!);
  const [a, b, c, d] = plane.corners.map((corner) => mapped(toPicture, corner));
  return { photo: { widthPx, heightPx, rgb }, cornersPx: [a!, b!, c!, d!] };
}

/** Red over blue of the paint just outside the lattice: 1 of a grey primer in neutral light. */
function warmth({ photo: { rgb, widthPx }, cornersPx: [a, b] }: TapePicture): number {
  let [red, blue] = [0, 0];
  for (let step = -20; step <= 20; step++) {
    const x = Math.round((a[0] + b[0]) / 2) + step;
    const y = Math.round((a[1] + b[1]) / 2 - 0.3 * Math.hypot(b[0] - a[0], b[1] - a[1]));
    red += rgb[(y * widthPx + x) * 3]!;
    blue += rgb[(y * widthPx + x) * 3 + 2]!;
  }
  return red / blue;
}

describe("a lattice on the measuring card, before by daylight and after under a warm lamp", { timeout: 60_000 }, () => {
  let pictures: { before: TapePicture; after: TapePicture };
  let cards: Parameters<typeof inOneLight>[1];
  beforeAll(() => {
    pictures = { before: onCard("before", [0.92, 0.97, 1]), after: onCard("after", [1, 0.93, 0.78]) };
    cards = { before: findCard(pictures.before.photo, 1), after: findCard(pictures.after.photo, 1) };
  }, 60_000);

  test("the paint has one colour in both once the paper has", () => {
    expect(warmth(pictures.after) / warmth(pictures.before)).toBeGreaterThan(1.1);
    const lit = inOneLight(pictures, cards);
    expect(Math.abs(warmth(lit.after) / warmth(lit.before) - 1)).toBeLessThan(0.04);
  });

  test("with a card in one of them only, both stay as they are", () =>
    expect(inOneLight(pictures, { ...cards, after: null })).toEqual(pictures));

  test("what came off is read", () => {
    const lit = inOneLight(pictures, cards);
    const reading = tapeReading(lit.before, lit.after, pattern);
    if ("unreadable" in reading) throw new Error(reading.sentence);
    expect(Math.abs(reading.removal.removedPercent - plane.removedPercent)).toBeLessThan(2);
  });

  test("the gate agrees with 2 mm, and asks about the spacing where 3 mm was chosen", () => {
    const [{ photo, cornersPx }, card] = [pictures.before, cards.before];
    expect(tapeGate(photo, { cornersPx, pattern, card })).toBeNull();
    expect(tapeGate(photo, { cornersPx, pattern: { ...pattern, spacingMm: 3 }, card })).toMatch(
      /the rings stand (9|10)\.\d and (9|10)\.\d mm apart; 6 cuts 3 mm apart make 15 mm/,
    );
  });

  test("two markers of the card are not enough", () => {
    const { photo, cornersPx } = pictures.before;
    const card = cards.before && { ...cards.before, markers: cards.before.markers.slice(0, 2) };
    expect(tapeGate(photo, { cornersPx, pattern, card })).toMatch(/Only 2 of the card's 4 markers/);
  });
});
