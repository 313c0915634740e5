import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eachAllocation } from "./allocations.ts";
import { friedmanExact } from "./friedman-exact.ts";
import { jonckheere } from "./jonckheere.ts";
import { kruskalWallis } from "./kruskal-wallis.ts";
import { pageTrend } from "./page-trend.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";

const value = fc.integer({ min: 0, max: 6 });
const group = (most: number) => fc.array(value, { minLength: 1, maxLength: most });
const table = fc.array(fc.array(value, { minLength: 3, maxLength: 3 }), { minLength: 2, maxLength: 3 });

function orders<T>(row: readonly T[]): T[][] {
  if (row.length <= 1) return [[...row]];
  return row.flatMap((one, at) => orders([...row.slice(0, at), ...row.slice(at + 1)]).map((rest) => [one, ...rest]));
}
/** All tables that permuting within the rows can give. */
const allTables = (rows: number[][]): number[][][] =>
  rows.reduce<number[][][]>((tables, row) => tables.flatMap((one) => orders(row).map((o) => [...one, o])), [[]]);

describe("Kruskal-Wallis", () => {
  test.each([
    ["one coupon each: all arrangements alike", [[1], [2], [3], [4]], 24, 1],
    [
      "three in duplicate, apart",
      [
        [1, 2],
        [3, 4],
        [5, 6],
      ],
      90,
      6 / 90,
    ],
    ["all tied", [[1, 1], [1], [1, 1]], 30, 1],
    [
      "two groups: as the rank sum",
      [
        [5, 6, 7],
        [1, 2, 3],
      ],
      20,
      0.1,
    ],
  ])("%s", (_, groups, allocations, exactP) => {
    const found = kruskalWallis({ groups });
    expect(found.allocations).toBe(allocations);
    expect(found.exactP).toBeCloseTo(exactP, 12);
  });

  test("groups in another order, values on another rising scale: nothing changes", () => {
    fc.assert(
      fc.property(group(3), group(3), group(2), (a, b, c) => {
        const one = kruskalWallis({ groups: [a, b, c] });
        const other = kruskalWallis({ groups: [c, a, b].map((values) => values.map((x) => x ** 3)) });
        expect(other.exactP).toBeCloseTo(one.exactP!, 12);
        expect(other.h ?? -1).toBeCloseTo(one.h ?? -1, 10);
      }),
      { numRuns: 40 },
    );
  });

  test("equal groups of two: the exact p is that of the rank sum", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(value, value), { minLength: 1, maxLength: 4 }), (pairs) => {
        const [first, second] = [pairs.map(([a]) => a), pairs.map(([, b]) => b)];
        expect(kruskalWallis({ groups: [first, second] }).exactP).toBeCloseTo(
          wilcoxonExact({ first, second }).exactP,
          12,
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe("Jonckheere-Terpstra", () => {
  const j = (groups: number[][]) =>
    groups.reduce(
      (sum, later, at) =>
        groups
          .slice(0, at)
          .flat()
          .reduce((part, a) => later.reduce((inner, b) => inner + (1 + Math.sign(b - a)) / 2, part), sum),
      0,
    );

  test("mean, variance and p are those of all allocations, with ties and unequal groups", () => {
    fc.assert(
      fc.property(group(3), group(2), group(3), (a, b, c) => {
        const sizes = [a.length, b.length, c.length];
        const all = [a, b, c].flat();
        const values: number[] = [];
        // Each place is a power of two of its own, so the sums say who is in which group.
        const places = all.map((_, at) => 2 ** at);
        eachAllocation([{ scores: places, groupSizes: sizes }], (sums) =>
          values.push(j(Array.from(sums, (sum) => all.filter((_, at) => sum & (1 << at))))),
        );
        const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
        const variance = values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length;
        const found = jonckheere({ groups: [a, b, c] });
        expect(found.expectedJ).toBeCloseTo(mean, 9);
        expect(found.varianceJ).toBeCloseTo(variance, 9);
        const far = values.filter((one) => Math.abs(one - mean) >= Math.abs(found.j - mean) - 1e-9).length;
        expect(found.exactP).toBeCloseTo(far / values.length, 12);
        expect(found.exactPGreater).toBeCloseTo(values.filter((one) => one >= found.j).length / values.length, 12);
      }),
      { numRuns: 40 },
    );
  });

  test("turn the order of the groups: rising becomes falling", () => {
    const groups = [
      [7, 7, 8],
      [8, 8, 9],
      [9, 10],
    ];
    const turned = jonckheere({ groups: [...groups].reverse() });
    expect(turned.exactPLess).toBeCloseTo(jonckheere({ groups }).exactPGreater, 12);
  });

  test("all tied: p 1, no asymptotic p", () => {
    expect(jonckheere({ groups: [[2, 2], [2], [2]] })).toMatchObject({ exactP: 1, varianceJ: 0, asymptoticP: null });
  });
});

describe("blocks: Friedman and Page", () => {
  test("exact p by all orders within the rows", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const tables = allTables(rows);
        const found = friedmanExact({ rows });
        const trend = pageTrend({ rows });
        const chi2 = tables.map((one) => friedmanExact({ rows: one }).chi2 ?? 0);
        expect(found.exactP).toBeCloseTo(
          chi2.filter((one) => one >= (found.chi2 ?? 0) - 1e-9).length / tables.length,
          10,
        );
        const l = tables.map((one) => pageTrend({ rows: one }).l);
        expect(trend.exactPGreater).toBeCloseTo(l.filter((one) => one >= trend.l - 1e-9).length / l.length, 10);
      }),
      { numRuns: 12 },
    );
  });

  test.each([
    [
      "two blocks, perfect",
      [
        [1, 2, 3],
        [1, 2, 3],
      ],
      1 / 6,
    ],
    [
      "three blocks, perfect, anywhere on the scale",
      [
        [1, 2, 3],
        [40, 50, 60],
        [7, 8, 9],
      ],
      1 / 36,
    ],
    [
      "all tied",
      [
        [1, 1, 1],
        [2, 2, 2],
      ],
      1,
    ],
  ])("%s", (_, rows, exactP) => expect(friedmanExact({ rows }).exactP).toBeCloseTo(exactP, 12));

  test("too many orders: the exact p is left out", () => {
    const rows = Array.from({ length: 9 }, (_, block) => Array.from({ length: 8 }, (_, at) => (at * (block + 3)) % 11));
    expect(friedmanExact({ rows })).toMatchObject({ exactP: null });
  });

  test("Page, one block of four in order: 1 of 24 orders", () => {
    expect(pageTrend({ rows: [[1, 2, 3, 4]] })).toMatchObject({ l: 30, exactPGreater: 1 / 24 });
  });
});

describe("several groups refuse", () => {
  test.each([
    ["one group", () => kruskalWallis({ groups: [[1, 2]] }), /^groups is/],
    ["an empty group", () => jonckheere({ groups: [[1], []] }), /^groups\[1\] is \[\]/],
    [
      "ragged rows",
      () =>
        friedmanExact({
          rows: [
            [1, 2, 3],
            [1, 2],
          ],
        }),
      /^rows\[1\]/,
    ],
    ["one block", () => friedmanExact({ rows: [[1, 2, 3]] }), /^rows is/],
    [
      "a trend over two treatments",
      () =>
        pageTrend({
          rows: [
            [1, 2],
            [2, 1],
          ],
        }),
      /^rows\[0\]/,
    ],
  ])("%s", (_, call, message) => expect(call).toThrow(message));
});
