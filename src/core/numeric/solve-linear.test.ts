import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solveLinear } from "./solve-linear.ts";

describe("a system of linear equations", () => {
  // By hand: x + y = 3, x - y = 1 give x = 2, y = 1; the second has a zero where the first pivot would stand.
  test.each([
    [
      [
        [1, 1],
        [1, -1],
      ],
      [3, 1],
      [2, 1],
    ],
    [
      [
        [0, 2],
        [3, 0],
      ],
      [4, 9],
      [3, 2],
    ],
  ])("%j x = %j", (matrix, right, answer) => expect(solveLinear(matrix, right)).toEqual(answer));

  test("refuses equations that say the same thing twice", () =>
    expect(() =>
      solveLinear(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
      ),
    ).toThrow(/^matrix is "singular"; expected equations/));

  test("what it answers fulfils the equations", () => {
    const value = fc.double({ min: -5, max: 5, noNaN: true });
    const three = fc.tuple(value, value, value);
    fc.assert(
      fc.property(fc.tuple(three, three, three), three, (rows, right) => {
        // A heavy diagonal keeps the system away from singular.
        const matrix = rows.map((row, at) => row.map((one, column) => one + (at === column ? 20 : 0)));
        const x = solveLinear(matrix, right);
        matrix.forEach((row, at) => {
          expect(row.reduce((sum, one, column) => sum + one * x[column]!, 0)).toBeCloseTo(right[at]!, 9);
        });
      }),
    );
  });
});
