import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  asRequested,
  boundsOf,
  contactGrown,
  newPlace,
  outlineFault,
  type Polygon,
  placeGrown,
  placeMoved,
  wholeRectangle,
  withOutlineCorner,
} from "./places.ts";

const coupon = { lengthMm: 100, widthMm: 60 };
const areaOf = (polygon: Polygon) =>
  Math.abs(
    polygon.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = polygon[(at + 1) % polygon.length]!;
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );

describe("a place that is not judged", () => {
  test("round: all of a 5 mm hole, and less than 1 % more", () => {
    const area = areaOf(newPlace("round", [50, 6], 5));
    const hole = Math.PI * 2.5 ** 2;
    expect(area).toBeGreaterThan(hole);
    expect(area).toBeLessThan(1.01 * hole);
  });

  test("a box of 12 mm", () =>
    expect(boundsOf(newPlace("box", [20, 30], 12))).toEqual({ xMm: 20, yMm: 30, lengthMm: 12, widthMm: 12 }));

  test.each<[string, [number, number], [number, number]]>([
    ["where it was let go", [70, 10], [70, 10]],
    ["its middle never over the edge", [-5, 70], [0, 60]],
  ])("moved: %s", (_, to, middle) => {
    const { xMm, yMm } = boundsOf(placeMoved(newPlace("round", [50, 30], 6), to, coupon));
    expect([xMm, yMm]).toEqual([expect.closeTo(middle[0], 1), expect.closeTo(middle[1], 1)]);
  });

  test("grown about its middle; a box each way by itself", () => {
    const longer = boundsOf(placeGrown(newPlace("box", [20, 30], 12), { alongMm: 8, acrossMm: -2 }, coupon));
    expect(longer).toEqual({ xMm: 20, yMm: 30, lengthMm: 20, widthMm: 10 });
  });

  test("never smaller than a millimetre, however often; nor larger than the coupon", () => {
    const by = fc.integer({ min: -300, max: 300 });
    fc.assert(
      fc.property(by, by, fc.constantFrom("round" as const, "box" as const), (alongMm, acrossMm, form) => {
        const { lengthMm, widthMm } = boundsOf(placeGrown(newPlace(form, [50, 30], 6), { alongMm, acrossMm }, coupon));
        return lengthMm > 0.9 && widthMm > 0.9 && lengthMm <= 100.1 && widthMm <= 60.1;
      }),
    );
  });
});

describe("an outline", () => {
  const triangle: Polygon = [
    [0, 0],
    [100, 0],
    [0, 60],
  ];
  test("its first three corners come in the order of the taps", () =>
    expect(withOutlineCorner(withOutlineCorner([[0, 0]], [100, 0]), [0, 60])).toEqual(triangle));

  test("a later corner goes into the side beside it, and nothing crosses", () => {
    const four = withOutlineCorner(triangle, [70, 40]);
    expect(four).toEqual([
      [0, 0],
      [100, 0],
      [70, 40],
      [0, 60],
    ]);
    expect(outlineFault(four)).toBeNull();
  });

  test.each<[string, Polygon, ReturnType<typeof outlineFault>]>([
    ["none", [], null],
    ["one corner", [[1, 1]], "too few"],
    ["a triangle", triangle, null],
    ["the whole rectangle", wholeRectangle(coupon), null],
    [
      "a bow tie",
      [
        [0, 0],
        [100, 60],
        [100, 0],
        [0, 60],
      ],
      "crossed",
    ],
  ])("%s: %s", (_, outline, fault) => expect(outlineFault(outline)).toBe(fault));
});

test.each([
  [6, 1, 7],
  [1, -1, 1],
  [60, 5, 60],
])("a contact point of %d mm grown by %d is %d mm across: at least a mm, at most the coupon's width", (from, by, to) =>
  expect(contactGrown({ xMm: 3, yMm: 4, radiusMm: from / 2 }, by, coupon)).toEqual({
    xMm: 3,
    yMm: 4,
    radiusMm: to / 2,
  }),
);

test("what is not there is left out of the request", () => {
  expect(asRequested({ hiddenMm: [], outlineMm: [] })).toEqual({});
  expect(asRequested({ hiddenMm: [], outlineMm: [[1, 1]] })).toEqual({});
  const hole = newPlace("round", [50, 6], 5);
  expect(asRequested({ hiddenMm: [hole], outlineMm: [] })).toEqual({ hiddenMm: [hole] });
});
