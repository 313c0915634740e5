import { expect, test } from "vitest";
import type { Measurement } from "../../api/photo.ts";
import { notCompared } from "./not-compared.ts";

const sizeMm = { lengthMm: 150, widthMm: 100 };
const first = { measurement: "first", date: "2026-03-02", sizeMm };
const [byCard, byCorners] = [{ name: "large" }, null] as const;

/** Only what is read of a measurement here. */
const measured = (of: { card: object | null; byHand?: object; asked?: string; size?: typeof sizeMm }) => {
  const { card, byHand = null, asked, size = sizeMm } = of;
  return { card, byHand, request: { sizeMm: size, ...(asked ? { first: asked } : {}) } } as unknown as Measurement;
};

test.each([
  // what is the case                                           first  measured                                    what is said
  ["the look's date was changed after it was measured", first, measured({ card: byCard }), /had another date, or/],
  [
    "its number reads the other way",
    first,
    measured({ card: byCard, size: { lengthMm: 100, widthMm: 150 } }),
    /there the number reads the other way\.$/,
  ],
  ["corners by hand", first, measured({ card: byCorners }), /corners set by hand/],
  ["the first one itself", null, measured({ card: byCard }), /^This is the first photograph/],
])("%s: said, and nothing else", (_case, known, measurement, says) => {
  expect(notCompared(known, measurement)).toMatch(says);
});

test.each([
  ["corrected by hand", first, measured({ card: byCard, byHand: { by: "Ines" } })],
  ["asked for", first, measured({ card: byCard, asked: "first" })],
  ["by hand, with none before it", null, measured({ card: byCorners })],
])("%s: nothing to be said", (_case, known, measurement) => {
  expect(notCompared(known, measurement)).toBeNull();
});
