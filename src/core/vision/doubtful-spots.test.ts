import { describe, expect, test } from "vitest";
import { doubtfulSpots } from "./doubtful-spots.ts";
import { marks } from "./raster.ts";

const side = 60;
const sureFrom = 3;

/** A square spot of `size` px, warmer than the surface by `warmer` along a* and along b*, of which the first `sure` px are sure. */
function spot({ size, warmer, sure }: { size: number; warmer: number; sure: number }) {
  const found = new Uint8Array(side * side);
  const logOdds = new Float32Array(side * side).fill(-4);
  const a = new Float32Array(side * side).fill(2);
  const b = new Float32Array(side * side).fill(5);
  let left = sure;
  for (let row = 20; row < 20 + size; row++)
    for (let column = 20; column < 20 + size; column++) {
      const at = row * side + column;
      found[at] = marks.rust;
      logOdds[at] = left-- > 0 ? sureFrom : 1;
      a[at]! += warmer;
      b[at]! += warmer;
    }
  return { found, odds: { logOdds, sureFrom }, surface: { widthPx: side, heightPx: side, a, b } };
}
const doubted = (of: Parameters<typeof spot>[0], counted: Uint8Array | null = null) => {
  const { found, odds, surface } = spot(of);
  return doubtfulSpots(found, odds, surface, counted).map(({ length }) => length);
};

describe("spots that are not to be believed on an unknown surface", () => {
  test.each([
    // spot, 2 % of 3600 px are 72                            doubted: px of each
    ["warmer, 9 px sure", { size: 6, warmer: 0.75, sure: 9 }, []],
    ["warmer, 8 px sure", { size: 6, warmer: 0.75, sure: 8 }, [36]],
    ["sure, a little warmer only", { size: 6, warmer: 0.65, sure: 36 }, [36]],
    ["sure, but colder: a hole in warm paint", { size: 6, warmer: -3, sure: 36 }, [36]],
    ["larger than a small spot: its ring may be its own bloom", { size: 9, warmer: 0, sure: 1 }, []],
  ] as const)("%s", (_, of, expected) => expect(doubted(of)).toEqual(expected));

  test("a spot that fills the counted part has no ring to be compared with", () => {
    const of = { size: 6, warmer: 0, sure: 36 };
    const counted = spot(of).found;
    // Rows beyond its ring's reach are counted, too, or it would be a large place.
    for (let at = 0; at < side * 13; at++) counted[at] = 1;
    for (let at = side * 33; at < side * side; at++) counted[at] = 1;
    expect(doubted(of, counted)).toEqual([]);
    expect(doubted(of, counted.fill(1))).toEqual([36]);
  });

  test("each spot is judged by itself", () => {
    const { found, odds, surface } = spot({ size: 6, warmer: 3, sure: 36 });
    found[5] = marks.rust;
    found[6 + side] = marks.rust;
    expect(doubtfulSpots(found, odds, surface, null).map((one) => [...one])).toEqual([[5, 6 + side]]);
  });
});
