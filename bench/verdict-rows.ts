/** The rows of docs/verdict-rates.md, with the numbers that an independent program gave for the same rules beside them. */
import type { InventedTrial } from "./invented-trials.ts";

/** Percent shown / suggested / not told apart / equivalent / cannot be told, as the independent program printed them. */
export type Expected = {
  differControl?: string;
  alikeControl?: string;
  differOthers?: string;
  alikeOthers?: string;
  falseShown?: string;
};
export type VerdictRow = { section: string; title: string; trial: InventedTrial; expected: Expected | null };

const six = (factor: number) => [1, factor, factor, factor, 1, 1];
const worst = [1, 6, 6, 6, 6, 6];

/** One line of the printed table: against control, differ | alike | among others, differ | alike | FW. */
function expected(line: string): Expected {
  const [differControl, alikeControl, differOthers, alikeOthers, falseShown] = line
    .split("|")
    .map((cell) => cell.trim());
  const all = { differControl, alikeControl, differOthers, alikeOthers, falseShown };
  return Object.fromEntries(Object.entries(all).filter(([, cell]) => cell !== "-" && cell !== undefined));
}

function row(section: string, title: string, trial: InventedTrial, line: string | null): VerdictRow {
  return { section, title, trial, expected: line === null ? null : expected(line) };
}

const times = (
  layout: string,
  perBlock: number | null,
  [truth, factors]: [string, number[]],
  n: number,
  line: string,
) => row("Times", `${layout}, ${truth}, n ${n}`, { kind: "time", perBlock, factors, n }, line);
const none: [string, number[]] = ["no difference", six(1)];
const two: [string, number[]] = ["factor 2", six(2)];
const three: [string, number[]] = ["factor 3", six(3)];
const control: [string, number[]] = ["control worst (1, all 6)", worst];

const timeRows = [
  times("free", null, three, 1, "0 0 0 0 100 | 0 0 0 0 100 | 0 0 0 0 100 | 0 0 0 0 100 | 0.0"),
  times("free", null, none, 3, "- | 0 4 96 0 0 | - | 0 1 99 0 0 | 0.0"),
  times("free", null, none, 5, "- | 0 3 96 0 0 | - | 0 2 98 0 0 | 1.8"),
  times("free", null, none, 8, "- | 1 5 94 0 0 | - | 0 3 97 0 0 | 3.2"),
  times("free", null, two, 3, "0 21 79 0 0 | 0 2 98 0 0 | 0 10 90 0 0 | 0 3 97 0 0 | 0.0"),
  times("free", null, two, 5, "10 38 53 0 0 | 0 4 96 0 0 | 0 29 71 0 0 | 0 5 95 0 0 | 0.1"),
  times("free", null, two, 8, "34 42 24 0 0 | 1 7 92 0 0 | 0 63 37 0 0 | 0 6 94 0 0 | 1.5"),
  times("free", null, three, 3, "0 45 55 0 0 | 0 4 96 0 0 | 0 25 75 0 0 | 0 4 95 0 0 | 0.0"),
  times("free", null, three, 5, "36 49 15 0 0 | 1 7 92 0 0 | 0 72 28 0 0 | 0 6 94 0 0 | 2.0"),
  times("free", null, three, 8, "84 14 2 0 0 | 1 9 90 0 0 | 0 97 3 0 0 | 0 6 94 0 0 | 1.7"),
  times("free", null, control, 3, "0 88 12 0 0 | - | - | 0 0 73 0 26 | 0.0"),
  times("free", null, control, 5, "91 9 0 0 0 | - | - | 0 1 89 0 10 | 0.2"),
  times("free", null, control, 8, "100 0 0 0 0 | - | - | 0 2 95 0 3 | 0.4"),
  times("blocks of 1", 1, three, 3, "0 0 0 0 100 | 0 0 0 0 100 | 0 0 0 0 100 | 0 0 0 0 100 | 0.0"),
  times("blocks of 1", 1, none, 5, "- | 0 3 97 0 0 | - | 0 1 99 0 0 | 0.0"),
  times("blocks of 1", 1, none, 8, "- | 0 4 96 0 0 | - | 0 2 98 0 0 | 1.3"),
  times("blocks of 1", 1, two, 5, "0 38 62 0 0 | 0 4 96 0 0 | 0 13 87 0 0 | 0 2 98 0 0 | 0.0"),
  times("blocks of 1", 1, two, 8, "26 44 30 0 0 | 1 6 94 0 0 | 0 55 45 0 0 | 0 6 94 0 0 | 1.3"),
  times("blocks of 1", 1, three, 5, "0 76 24 0 0 | 0 5 95 0 0 | 0 43 57 0 0 | 0 1 98 0 0 | 0.0"),
  times("blocks of 1", 1, three, 8, "73 23 4 0 0 | 1 8 91 0 0 | 0 94 6 0 0 | 0 5 95 0 0 | 1.5"),
  times("blocks of 1", 1, control, 5, "0 98 2 0 0 | - | - | 0 0 90 0 10 | 0.0"),
  times("blocks of 1", 1, control, 8, "99 1 0 0 0 | - | - | 0 1 97 0 2 | 0.1"),
];

const measured = (truth: string, factors: number[], n: number | number[], scatter: number[] | null, line: string) =>
  row(
    "Measured values",
    `free, ${truth}, n ${typeof n === "number" ? n : `${n[0]} against ${n[1]} each`}`,
    { kind: "continuous", perBlock: null, factors, n, ...(scatter ? { scatter } : {}) },
    line,
  );
const noisyControl = [3, 1, 1, 1, 1, 1];
const noisyFinish = [1, 3, 1, 1, 1, 1];
const threeAgainstEight = [3, 8, 8, 8, 8, 8];

const measuredRows = [
  measured("no difference", six(1), 3, null, "- | 0 3 96 0 0 | - | - | 1.5"),
  measured("no difference", six(1), 5, null, "- | 1 4 95 0 0 | - | - | 2.7"),
  measured("no difference", six(1), 8, null, "- | 1 5 91 3 0 | - | - | 3.5"),
  measured("factor 2", six(2), 3, null, "14 36 51 0 0 | 0 6 94 0 0 | - | - | 0.9"),
  measured("factor 2", six(2), 5, null, "53 31 15 0 0 | 1 8 91 0 0 | - | - | 2.0"),
  measured("factor 2", six(2), 8, null, "89 9 2 0 0 | 2 9 87 2 0 | - | - | 3.4"),
  measured("factor 3", six(3), 2, null, "0 36 64 0 0 | 0 4 96 0 0 | - | - | 0.0"),
  measured("factor 3", six(3), 3, null, "43 45 12 0 0 | 1 7 93 0 0 | - | - | 1.3"),
  measured("factor 3", six(3), 5, null, "95 5 0 0 0 | 2 9 90 0 0 | - | - | 2.8"),
  measured("factor 3", six(3), 8, null, "100 0 0 0 0 | 2 10 86 3 0 | - | - | 3.5"),
  measured("no difference, one finish SD x3", six(1), 3, noisyFinish, "- | 0 2 97 0 0 | - | - | 2.0"),
  measured("no difference, one finish SD x3", six(1), 5, noisyFinish, "- | 0 2 98 0 0 | - | - | 1.9"),
  measured("no difference, one finish SD x3", six(1), 8, noisyFinish, "- | 0 2 98 0 0 | - | - | 1.8"),
  measured("no difference, control SD x3", six(1), 3, noisyControl, "- | 2 7 91 0 0 | - | - | 3.9"),
  measured("no difference, control SD x3", six(1), 5, noisyControl, "- | 3 7 90 0 0 | - | - | 4.1"),
  measured("no difference, control SD x3", six(1), 8, noisyControl, "- | 2 7 91 0 0 | - | - | 3.9"),
  measured("no difference, control SD x3", six(1), threeAgainstEight, noisyControl, "- | 3 5 92 0 0 | - | - | 3.6"),
  measured("factor 3, control SD x3", six(3), 3, noisyControl, "11 22 67 0 0 | 3 9 88 0 0 | - | - | 3.5"),
  measured("factor 3, control SD x3", six(3), 5, noisyControl, "25 30 45 0 0 | 3 9 88 0 0 | - | - | 4.0"),
  measured("factor 3, control SD x3", six(3), 8, noisyControl, "53 29 18 0 0 | 3 10 88 0 0 | - | - | 3.7"),
  measured(
    "factor 3, control SD x3",
    six(3),
    threeAgainstEight,
    noisyControl,
    "11 15 73 0 0 | 4 8 89 0 0 | - | - | 4.2",
  ),
];

const layout = (title: string, perBlock: number | null, factors: number[], n: number, shown: string) =>
  row(
    "Four treatments by allocation (shown, of the true differences)",
    title,
    { kind: "time", perBlock, factors, n },
    `${shown} | - | - | - | at most 3.1`,
  );
const layoutRows = [
  layout("free, factors 1 6 6 1, n 6", null, [1, 6, 6, 1], 6, "99"),
  layout("6 blocks of 1, factors 1 6 6 1", 1, [1, 6, 6, 1], 6, "77"),
  layout("3 blocks of 2, factors 1 6 6 1", 2, [1, 6, 6, 1], 6, "97"),
  layout("2 blocks of 3, factors 1 6 6 1", 3, [1, 6, 6, 1], 6, "97"),
  layout("free, factors 1 6 6 1, n 4", null, [1, 6, 6, 1], 4, "72"),
  layout("free, factors 1 3 3 1, n 6", null, [1, 3, 3, 1], 6, "72"),
  layout("6 blocks of 1, factors 1 3 3 1", 1, [1, 3, 3, 1], 6, "37"),
  layout("3 blocks of 2, factors 1 3 3 1", 2, [1, 3, 3, 1], 6, "61"),
  layout("2 blocks of 3, factors 1 3 3 1", 3, [1, 3, 3, 1], 6, "64"),
];

const pairs = (title: string, perBlock: number | null, factors: number[], n: number, line: string) =>
  row("All pairs declared (times)", `${title}, n ${n}`, { kind: "time", perBlock, factors, n, family: "pairs" }, line);
const pairRows = [
  pairs("free, 4 alike", null, [1, 1, 1, 1], 5, "- | - | - | - | 1.3 to 3.0"),
  pairs("free, 5 alike", null, [1, 1, 1, 1, 1], 8, "- | - | - | - | 1.3 to 3.0"),
  pairs("blocks of 1, 4 alike", 1, [1, 1, 1, 1], 8, "- | - | - | - | 1.3 to 3.0"),
  pairs("blocks of 2, 4 alike", 2, [1, 1, 1, 1], 6, "- | - | - | - | 1.3 to 3.0"),
  pairs("free, factors 1 1 3 3", null, [1, 1, 3, 3], 5, "43 | - | - | - | 1.5 to 4.2"),
  pairs("free, factors 1 1 3 3", null, [1, 1, 3, 3], 8, "86 | - | - | - | 1.5 to 4.2"),
  pairs("blocks of 1, factors 1 1 3 3", 1, [1, 1, 3, 3], 8, "71 | - | - | - | 1.5 to 4.2"),
  pairs("blocks of 2, factors 1 1 3 3", 2, [1, 1, 3, 3], 6, "52 | - | - | - | 1.5 to 4.2"),
  pairs("free, factors 1 1 1 4 4", null, [1, 1, 1, 4, 4], 5, "52 | - | - | - | 1.5 to 4.2"),
  pairs("free, factors 1 1 1 4 4", null, [1, 1, 1, 4, 4], 8, "94 | - | - | - | 1.5 to 4.2"),
  pairs("blocks of 1, factors 1 1 1 4 4", 1, [1, 1, 1, 4, 4], 8, "78 | - | - | - | 1.5 to 4.2"),
  pairs("blocks of 2, factors 1 1 1 4 4", 2, [1, 1, 1, 4, 4], 6, "59 | - | - | - | 1.5 to 4.2"),
];

const gateRows = [5, 8].map((n) =>
  row(
    "Gate: three finishes alike, four times better than the control",
    `free, n ${n}`,
    { kind: "time", perBlock: null, factors: [1, 4, 4, 4], n },
    `- | - | - | - | ${n === 5 ? "2.0" : "3.8"}`,
  ),
);

const added = (title: string, trial: InventedTrial) => row("Other responses, layouts and margins", title, trial, null);
const addedRows = [
  ...([null, 1, 2] as const).flatMap((perBlock) =>
    (["ordinal", "area", "binary"] as const).flatMap((kind) =>
      [1, 3].map((factor) =>
        added(
          `${kind}, ${perBlock === null ? "free" : `blocks of ${perBlock}`}, ${factor === 1 ? "no difference" : `factor ${factor}`}, n 8`,
          {
            kind,
            perBlock,
            factors: six(factor),
            n: 8,
          },
        ),
      ),
    ),
  ),
  added("time, each treatment one batch of its own, no difference, n 8", {
    kind: "time",
    perBlock: null,
    factors: six(1),
    n: 8,
    batches: "one each",
  }),
  added("time, each treatment one batch of its own, factor 3, n 8", {
    kind: "time",
    perBlock: null,
    factors: six(3),
    n: 8,
    batches: "one each",
  }),
  added("time, one bath run for all finishes beside an untreated control, no difference, n 8", {
    kind: "time",
    perBlock: null,
    factors: six(1),
    n: 8,
    batches: "finishes share one",
  }),
  added("time, one bath run for all finishes beside an untreated control, factors 1 3 3 12 12 12, n 8", {
    kind: "time",
    perBlock: null,
    factors: [1, 3, 3, 12, 12, 12],
    n: 8,
    batches: "finishes share one",
  }),
  added("time, heavy ties (looks at 14, 42 and 84 d), no difference, n 8", {
    kind: "time",
    perBlock: null,
    factors: six(1),
    n: 8,
    lookDays: [14, 42, 84],
  }),
  added("time, heavy ties (looks at 14, 42 and 84 d), factor 3, n 8", {
    kind: "time",
    perBlock: null,
    factors: six(3),
    n: 8,
    lookDays: [14, 42, 84],
  }),
  added("time, heavy ties, blocks of 1, factor 3, n 8", {
    kind: "time",
    perBlock: 1,
    factors: six(3),
    n: 8,
    lookDays: [14, 42, 84],
  }),
  added("time, margin 4, no difference, n 8", { kind: "time", perBlock: null, factors: six(1), n: 8, margin: 4 }),
  added("time, margin 2, truth at the margin, n 8", { kind: "time", perBlock: null, factors: six(2), n: 8, margin: 2 }),
  added("measured, margin 2, no difference, n 8", {
    kind: "continuous",
    perBlock: null,
    factors: six(1),
    n: 8,
    margin: 2,
  }),
  added("measured, margin 2, truth at the margin, n 8", {
    kind: "continuous",
    perBlock: null,
    factors: six(2),
    n: 8,
    margin: 2,
  }),
  added("area, margin 6, no difference, n 8", { kind: "area", perBlock: null, factors: six(1), n: 8, margin: 6 }),
  added("time, 3 against 8 each, no difference", {
    kind: "time",
    perBlock: null,
    factors: six(1),
    n: threeAgainstEight,
  }),
  added("time, 3 against 8 each, factor 3", { kind: "time", perBlock: null, factors: six(3), n: threeAgainstEight }),
];

const baths = (title: string, factors: number[], kind: "time" | "continuous", n: number, batchLogSd: number) =>
  row(
    "Split plot: two baths run n times each, two oils in each run, all pairs",
    `${kind === "time" ? "time" : "measured"}, ${title}, n ${n}, SD between runs ${batchLogSd}`,
    { kind, perBlock: null, factors, n, family: "pairs", batches: "two baths", batchLogSd },
    null,
  );
const bathRows = [
  baths("no difference", [1, 1, 1, 1], "time", 8, 0.2),
  baths("no difference", [1, 1, 1, 1], "time", 8, 0.6),
  baths("second oil x3", [1, 3, 1, 3], "time", 8, 0.6),
  baths("second bath x3", [1, 1, 3, 3], "time", 8, 0.2),
  baths("no difference", [1, 1, 1, 1], "continuous", 6, 0.35),
  baths("second oil x2", [1, 2, 1, 2], "continuous", 6, 0.35),
  baths("second bath x2", [1, 1, 2, 2], "continuous", 6, 0.35),
];

const rack = (title: string, factors: number[], n: number, rackRows: number) =>
  row(
    "Restricted draw: no treatment all on one edge of the rack, whose first row rusts in half the time",
    `time, ${rackRows} rows, ${title}, n ${n}`,
    { kind: "time", perBlock: null, factors, n, rackRows },
    null,
  );
const rackRows = [
  rack("3 alike", [1, 1, 1], 4, 3),
  rack("3 alike", [1, 1, 1], 6, 3),
  rack("4 treatments, one of them x3", [1, 3, 1, 1], 8, 4),
];

export const verdictRows: readonly VerdictRow[] = [
  ...timeRows,
  ...addedRows,
  ...bathRows,
  ...rackRows,
  ...pairRows,
  ...gateRows,
  ...layoutRows,
  ...measuredRows,
];
