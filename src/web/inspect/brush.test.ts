import { describe, expect, test } from "vitest";
import { isFarEnough, type PointMm, strokePath, toMm } from "./brush.ts";

describe("strokes", () => {
  test.each<[string, PointMm[], PointMm, boolean]>([
    ["the first point always counts", [], [1, 1], true],
    ["a tremble does not", [[1, 1]], [1.2, 1], false],
    ["a move does", [[1, 1]], [1.5, 1], true],
  ])("%s", (_name, points, next, counts) => expect(isFarEnough(points, next, 3)).toBe(counts));

  test.each<[string, PointMm[], string]>([
    ["nothing", [], ""],
    ["a touch", [[2, 3]], "M2 3l0 0"],
    [
      "a line",
      [
        [2, 3],
        [4, 5],
      ],
      "M2 3L4 5",
    ],
  ])("%s as a path", (_name, points, path) => expect(strokePath(points)).toBe(path));
});

test("the place on the screen becomes mm, however large the picture is drawn", () => {
  const size = { lengthMm: 100, widthMm: 60 };
  const drawn = { left: 20, top: 100, width: 350, height: 210 };
  expect(toMm({ clientX: 20, clientY: 100 }, drawn, size)).toEqual([0, 0]);
  expect(toMm({ clientX: 195, clientY: 205 }, drawn, size)).toEqual([50, 30]);
  expect(toMm({ clientX: 370, clientY: 310 }, drawn, size)).toEqual([100, 60]);
});
