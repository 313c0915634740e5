import fc from "fast-check";
import { expect, test } from "vitest";
import { touchingRuns } from "./touching-runs.ts";

test("by hand: two legs that meet below are one place, a corner touches, the end of a row and the next begin do not", () => {
  const bytes = Uint8Array.of(...[1, 0, 1, 0, 1], ...[1, 1, 1, 0, 0], ...[0, 0, 0, 1, 0], ...[1, 0, 0, 0, 0]);
  expect(touchingRuns(bytes, 5)).toEqual({
    starts: Int32Array.of(0, 2, 4, 5, 13, 15),
    pasts: Int32Array.of(1, 3, 5, 8, 14, 16),
    places: Int32Array.of(0, 0, 2, 0, 0, 5),
  });
});

/** The first pixel of each pixel's place, by asking neighbour after neighbour. */
function firstByNeighbours(bytes: Uint8Array, widthPx: number): number[] {
  const first = new Array<number>(bytes.length).fill(-1);
  const spread = (at: number, name: number): void => {
    if (bytes[at] !== 1 || first[at] !== -1) return;
    first[at] = name;
    for (const down of [-1, 0, 1])
      for (const right of [-1, 0, 1]) {
        const column = (at % widthPx) + right;
        if (column >= 0 && column < widthPx) spread(at + down * widthPx + right, name);
      }
  };
  for (const at of bytes.keys()) spread(at, at);
  return first;
}

test("gives each pixel the place that asking all neighbours gives", () => {
  const rasters = fc.integer({ min: 1, max: 12 }).chain((widthPx) =>
    fc.record({
      widthPx: fc.constant(widthPx),
      rows: fc.array(fc.array(fc.constantFrom(0, 0, 1), { minLength: widthPx, maxLength: widthPx }), {
        minLength: 1,
        maxLength: 12,
      }),
    }),
  );
  fc.assert(
    fc.property(rasters, ({ widthPx, rows }) => {
      const bytes = Uint8Array.from(rows.flat());
      const { starts, pasts, places } = touchingRuns(bytes, widthPx);
      const first = new Array<number>(bytes.length).fill(-1);
      for (const [run, start] of starts.entries()) first.fill(starts[places[run]!]!, start, pasts[run]);
      expect(first).toEqual(firstByNeighbours(bytes, widthPx));
    }),
  );
});
