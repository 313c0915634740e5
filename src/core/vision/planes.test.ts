import { expect, test } from "vitest";
import { givePlanesBack, takenPlane } from "./planes.ts";

test("a plane that was given back is the next one of its size, and nobody else's", () => {
  const first = takenPlane(12);
  givePlanesBack(first);
  expect(takenPlane(13)).not.toBe(first);
  expect(takenPlane(12)).toBe(first);
  expect(takenPlane(12)).not.toBe(first);
});

test("of too many given back, only some are kept", () => {
  const many = Array.from({ length: 200 }, () => new Float32Array(7));
  givePlanesBack(...many);
  const again = many.map(() => takenPlane(7));
  expect(again.filter((plane) => many.some((one) => one === plane)).length).toBeLessThan(50);
});
