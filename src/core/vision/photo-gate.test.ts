import { describe, expect, test } from "vitest";
import { type GateSight, gateLimits, gateSentence, gateValueText, glarePercentOf, photoGate } from "./photo-gate.ts";

const light = {
  fields: [[0], [0], [0]] as const,
  cardMm: { widthMm: 134, heightMm: 132 },
  whiteLevel: 220,
  clippedPaperPercent: 0,
  unevenness: 1.2,
  shadowPercent: 0,
  castChroma: 4,
};
const good: GateSight = {
  pxPerMm: 8,
  tiltDeg: 5,
  edgeWidthMm: { acrossX: 0.3, acrossY: 0.3 },
  glarePercent: 0,
  card: { light, unevenMm: 0.03, markers: 4 },
};
const failing = (sight: GateSight) => photoGate(sight).flatMap(({ what, passes }) => (passes ? [] : [what]));

describe("the quality gate", () => {
  test("lets a good photograph pass, all twelve checks made", () => {
    expect(failing(good)).toEqual([]);
    expect(photoGate(good)).toHaveLength(12);
  });

  test.each<[string, GateSight]>([
    ["resolution", { ...good, pxPerMm: 3.9 }],
    ["tilt", { ...good, tiltDeg: 36.1 }],
    ["focus", { ...good, edgeWidthMm: { acrossX: 0.7, acrossY: 0.7 } }],
    // By squares: √(0.6² - 0.3²) = 0.52 mm of movement.
    ["movement", { ...good, edgeWidthMm: { acrossX: 0.6, acrossY: 0.3 } }],
    ["glare", { ...good, glarePercent: 2.1 }],
    ["darkness", { ...good, card: { ...good.card!, light: { ...light, whiteLevel: 80 } } }],
    ["overexposure", { ...good, card: { ...good.card!, light: { ...light, clippedPaperPercent: 40 } } }],
    ["uneven light", { ...good, card: { ...good.card!, light: { ...light, unevenness: 2.5 } } }],
    ["hard shadow", { ...good, card: { ...good.card!, light: { ...light, shadowPercent: 12 } } }],
    ["colour cast", { ...good, card: { ...good.card!, light: { ...light, castChroma: 30 } } }],
    ["flat card", { ...good, card: { ...good.card!, unevenMm: 0.6 } }],
    ["card in sight", { ...good, card: { ...good.card!, markers: 2 } }],
  ])("refuses for %s alone", (what, sight) => expect(failing(sight)).toEqual([what]));

  test("one from the side says how far and how far it may be, and a hair beyond never reads as on the limit", () => {
    const said = (tiltDeg: number) => gateSentence(photoGate({ ...good, tiltDeg }));
    expect(said(36.1)).toBe(
      "The camera looks at the coupon from the side: 37° from straight above, at most 36°. Hold it more above, its back level with the card.",
    );
    expect(said(36)).toBeNull();
  });

  test.each<[string, GateSight, string]>([
    ["resolution", { ...good, pxPerMm: 3.98 }, "3.9"],
    ["focus", { ...good, edgeWidthMm: { acrossX: 0.652, acrossY: 0.652 } }, "0.66"],
    ["glare", { ...good, glarePercent: 2.01 }, "2.1"],
    ["darkness", { ...good, card: { ...good.card!, light: { ...light, whiteLevel: 89.7 } } }, "89"],
    ["overexposure", { ...good, card: { ...good.card!, light: { ...light, clippedPaperPercent: 15.2 } } }, "16"],
    ["colour cast", { ...good, card: { ...good.card!, light: { ...light, castChroma: 22.3 } } }, "23"],
  ])("a hair beyond its limit of %s never reads as on it, in the table and in the sentence", (what, sight, text) => {
    const failed = photoGate(sight).find((check) => check.what === what)!;
    expect(failed.passes).toBe(false);
    expect(gateValueText(failed)).toBe(text);
    expect(failed.says).toContain(` ${text} `);
  });

  test("a good value is rounded to the nearest, and a bad one no farther than its own digits", () => {
    const glareOf = (glarePercent: number) =>
      photoGate({ ...good, glarePercent }).find(({ what }) => what === "glare")!;
    expect(gateValueText(glareOf(0.04))).toBe("0.0");
    expect(gateValueText(glareOf(2.3))).toBe("2.3");
  });

  test("a value on its limit passes", () => {
    expect(failing({ ...good, pxPerMm: gateLimits.resolution.least, tiltDeg: gateLimits.tilt.most })).toEqual([]);
  });

  test("without a card only what the coupon itself shows is checked, and a missing edge is no fault", () => {
    const sight = { ...good, card: null, edgeWidthMm: { acrossX: null, acrossY: null } };
    expect(photoGate(sight).map(({ what }) => what)).toEqual(["resolution", "tilt", "glare"]);
  });
});

test("glare is the share of the face that is nearly white in all channels", () => {
  const rgb = new Uint8Array(10 * 10 * 3).fill(90);
  // Five of the 64 pixels of the face, and one on the edge band that does not count.
  for (const at of [11, 12, 13, 14, 15, 0]) rgb.fill(250, at * 3, at * 3 + 3);
  const image = { widthPx: 10, heightPx: 10, rgb };
  expect(glarePercentOf(image, { left: 1, top: 1, right: 9, bottom: 9 })).toBeCloseTo(500 / 64, 9);
});
