import { expect, test } from "vitest";
import { renderCard } from "../../../tests/rendered-card.ts";
import { findCard } from "../../core/vision/find-card.ts";
import { cardSight, windowCorners } from "./photo-sight.ts";

function castUnder(exposure: number): number {
  const scene = { seed: 7, card: "small", widthPx: 560, tiltDeg: 5, fills: 0.7, noise: 1, coupon: null } as const;
  const photo = renderCard({ ...scene, light: { tint: [1, 0.65, 0.35], exposure } });
  const card = findCard(photo, 1)!;
  return cardSight(photo, card, windowCorners(card)).card.light.castChroma;
}

test("a lamp is as coloured in a dark photograph as in a bright one", () => {
  const [bright, dark] = [castUnder(0.9), castUnder(0.35)];
  expect(bright).toBeGreaterThan(22);
  expect(Math.abs(dark / bright - 1)).toBeLessThan(0.1);
});
