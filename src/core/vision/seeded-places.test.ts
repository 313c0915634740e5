import { expect, test } from "vitest";
import { seededPlaces } from "./seeded-places.ts";

test("a rim stays with its spot, also over a corner; a faint speck alone does not count", () => {
  const plane = Float32Array.of(...[1, 0, 0, 0, 0], ...[0, 2, 0, 0, 1], ...[0, 0, 0, 0, 0], ...[1, 1, 0, 0, 0]);
  const found = Array.from(seededPlaces(plane, 5, { from: 1, seedFrom: 2, leastPixels: 1 }), (mark) => (mark ? 1 : 0));
  expect(found).toEqual([...[1, 0, 0, 0, 0], ...[0, 1, 0, 0, 0], ...[0, 0, 0, 0, 0], ...[0, 0, 0, 0, 0]]);
});

test("the last of a row and the first of the next do not touch", () => {
  const plane = Float32Array.of(0, 0, 2, 1, 0, 0);
  expect(Array.from(seededPlaces(plane, 3, { from: 1, seedFrom: 2, leastPixels: 1 }))).toEqual([0, 0, 255, 0, 0, 0]);
});

test("a place of fewer pixels than asked for is none; the larger one beside it stays", () => {
  const plane = Float32Array.of(2, 1, 0, 2, 2, 1);
  expect(Array.from(seededPlaces(plane, 6, { from: 1, seedFrom: 2, leastPixels: 3 }))).toEqual([
    0, 0, 0, 255, 255, 255,
  ]);
});
