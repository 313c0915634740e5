import { describe, expect, test } from "vitest";
import type { PointMm } from "./brush.ts";
import { brushAfter, ringMoved } from "./brush-keys.ts";

const on = { size: { lengthMm: 100, widthMm: 60 }, widthMm: 5 };
const key = (name: string, shiftKey = false) => ({ key: name, shiftKey });

describe("the ring", () => {
  test.each<[string, PointMm, ReturnType<typeof key>, PointMm | null]>([
    ["half a brush to the right", [50, 30], key("ArrowRight"), [52.5, 30]],
    ["half a brush down", [50, 30], key("ArrowDown"), [50, 32.5]],
    ["two brushes with shift", [50, 30], key("ArrowLeft", true), [40, 30]],
    ["never over the edge", [1, 1], key("ArrowUp", true), [1, 0]],
    ["nor over the far edge", [99, 30], key("ArrowRight"), [100, 30]],
    ["stays for another key", [50, 30], key("a"), null],
  ])("%s", (_, from, pressed, to) => expect(ringMoved(from, pressed, on)).toEqual(to));

  test("from edge to edge it leaves no gap that a dab does not cover", () => {
    const steps: PointMm[] = [[0, 30]];
    while (steps.at(-1)![0] < 100) steps.push(ringMoved(steps.at(-1)!, key("ArrowRight"), on)!);
    for (const [at, [x]] of steps.slice(1).entries()) expect(x - steps[at]![0]).toBeLessThanOrEqual(on.widthMm / 2);
  });
});

test.each([
  ["+", 5, 10],
  ["=", 1, 2],
  ["-", 5, 2],
  ["-", 1, 1],
  ["+", 10, 10],
  ["a", 5, 5],
])("%s after a brush of %d mm: %d mm", (pressed, before, after) =>
  expect(brushAfter([1, 2, 5, 10], before, pressed)).toBe(after),
);
