import { describe, expect, test } from "vitest";
import type { LookRow, LooksTable, PlainTable, TimeRow, ValueRow } from "./plain-table.ts";
import { plainAsk, type TableAsk, tableQuestion } from "./table-question.ts";

const blank = {
  row: 2,
  block: null,
  batch: null,
  site: null,
  rackRow: null,
  rackColumn: null,
  edge: null,
  inspector: null,
  deviation: null,
  circumstances: {},
};
type Look = Partial<LookRow> & { day: number; reading: number | null };
const look = (coupon: string, treatment: string, { day, ...more }: Look): LookRow => ({
  ...blank,
  coupon,
  treatment,
  when: { day },
  face: null,
  edgePercent: null,
  takenDown: null,
  ...more,
});
const table = (rows: LookRow[], more: Partial<LooksTable> = {}): PlainTable => ({
  kind: "looks",
  readings: "percent",
  scale: null,
  from: null,
  notes: [],
  rows,
  ...more,
});
/** One coupon of each of two treatments, clean until day 7. */
const rest = [look("1", "control", { day: 7, reading: 0 }), look("2", "oil", { day: 7, reading: 0 })];
const ask = (more: Partial<TableAsk> = {}): TableAsk => ({ ...plainAsk, ...more });
const datumOf = (from: PlainTable, coupon: string, asked = ask()) =>
  tableQuestion(from, asked).coupons.find((one) => one.coupon === coupon)?.datum;

describe("time to first rust from looks", () => {
  test("strictly above the threshold, and the threshold is the user's", () => {
    const rows = [
      ...rest,
      look("1", "control", { day: 14, reading: 0.01 }),
      look("1", "control", { day: 21, reading: 0.0101 }),
    ];
    expect(datumOf(table(rows), "1")).toEqual({ left: 14, right: 21 });
    expect(datumOf(table(rows), "1", ask({ thresholdPercent: 0.02 }))).toEqual({ left: 21, right: null });
  });

  test("the worst face counts, and the edge band does not", () => {
    const rows = [
      ...rest,
      look("1", "control", { day: 14, reading: 0, face: "front" }),
      look("1", "control", { day: 14, reading: 0.5, face: "back" }),
      look("2", "oil", { day: 14, reading: 0, edgePercent: 40 }),
    ];
    expect(datumOf(table(rows), "1")).toEqual({ left: 7, right: 14 });
    expect(datumOf(table(rows), "2")).toEqual({ left: 14, right: null });
  });

  test("rust on day 0 is refused: the message names the coupon, and from when it hung settles it", () => {
    const rows = [...rest, look("3", "oil", { day: 0, reading: 2 }), look("3", "oil", { day: 7, reading: 2 })];
    expect(() => tableQuestion(table(rows), ask())).toThrow(
      expect.objectContaining({ message: expect.stringMatching(/^coupon is "3"; .*say when$/), settledBy: "from" }),
    );
    expect(datumOf(table(rows), "3", ask({ response: "area" }))).toEqual({ value: 2 });
  });

  test("dates count from day 0 of the table", () => {
    const rows = [
      { ...look("1", "control", { day: 0, reading: 0 }), when: { date: "2026-03-28" } },
      { ...look("1", "control", { day: 0, reading: 1 }), when: { date: "2026-04-04" } },
      { ...look("2", "oil", { day: 0, reading: 0 }), when: { date: "2026-04-04" } },
    ];
    expect(datumOf(table(rows, { from: "2026-03-27" }), "1")).toEqual({ left: 1, right: 8 });
  });

  test.each([
    // taken down     datum                        why
    ["lost", { left: 7, right: null }, "out of sight from then on"],
    ["test", { left: 7, right: null }, "out of sight from then on"],
    ["rust", { left: 7, right: 21 }, "its state: the worst from then on"],
    ["State", { left: 7, right: 21 }, "its state: the worst from then on"],
  ])("taken down (%s) on day 21 without a reading: %o (%s)", (takenDown, datum, _why) => {
    const rows = [...rest, look("1", "control", { day: 21, reading: null, takenDown })];
    expect(datumOf(table(rows), "1")).toEqual(datum);
    expect(tableQuestion(table(rows), ask()).notes.join()).toContain("Coupon 1 was taken down on day 21");
  });

  test("rust that vanished is a note; a coupon seen on day 0 only carries nothing and is left out", () => {
    const rows = [...rest, look("1", "control", { day: 3, reading: 1 }), look("3", "oil", { day: 0, reading: 0 })];
    const question = tableQuestion(table(rows), ask());
    expect(question.coupons.map((one) => one.coupon)).toEqual(["1", "2"]);
    expect(question.notes.join(" ")).toMatch(/Coupon 1: rust seen on day 3 was gone.*Coupon 3 carries nothing/);
  });

  test("ratings: rust is any class worse than the best, and a threshold is refused", () => {
    const rated = (scale: LooksTable["scale"], reading: number) =>
      table(
        [
          ...rest.map((row) => ({ ...row, reading: scale === "iso4628" ? 0 : 10 })),
          look("1", "control", { day: 14, reading }),
        ],
        {
          readings: "rating",
          scale,
        },
      );
    expect(datumOf(rated("iso10289", 9), "1")).toEqual({ left: 7, right: 14 });
    expect(datumOf(rated("iso4628", 1), "1")).toEqual({ left: 7, right: 14 });
    expect(datumOf(rated("iso4628", 0), "1")).toEqual({ left: 14, right: null });
    expect(() => tableQuestion(rated("d610", 9), ask({ thresholdPercent: 0.1 }))).toThrow(/^threshold /);
    expect(() => tableQuestion(rated("d610", 9), ask({ response: "area" }))).toThrow(/^response /);
  });
});

describe("area and grade on a fixed day", () => {
  const rows = [
    ...rest,
    look("1", "control", { day: 14, reading: 0.2, face: "front" }),
    look("1", "control", { day: 14, reading: 3, face: "back" }),
    look("2", "oil", { day: 14, reading: 0.06 }),
    look("1", "control", { day: 21, reading: 9 }),
  ];

  test("the last look that every coupon still out has", () => {
    expect(datumOf(table(rows), "1", ask({ response: "area" }))).toEqual({ value: 3 });
    const lost = [
      ...rows.filter((row) => row.when && !("day" in row.when && row.coupon === "2" && row.when.day > 7)),
      look("2", "oil", { day: 8, reading: null, takenDown: "lost" }),
    ];
    const question = tableQuestion(table(lost), ask({ response: "area" }));
    expect(question.coupons.map(({ coupon, datum }) => [coupon, datum])).toEqual([["1", { value: 9 }]]);
    expect(question.notes.join()).toContain("Coupon 2 was left out on day 21 (taken down on day 8: lost)");
  });

  test("a day asked for must be a day of looks; who was not looked at is left out", () => {
    expect(() => tableQuestion(table(rows), ask({ response: "area", atDay: 15 }))).toThrow(
      "at is 15; expected a day of looks: 7, 14, 21",
    );
    const question = tableQuestion(table(rows), ask({ response: "area", atDay: 21 }));
    expect(question.coupons.map((one) => one.coupon)).toEqual(["1"]);
  });

  test("taken down for its state counts as 100 % and as the worst class", () => {
    const down = [...rows, look("2", "oil", { day: 20, reading: null, takenDown: "rust" })];
    expect(datumOf(table(down), "2", ask({ response: "area", atDay: 21 }))).toEqual({ value: 100 });
    expect(datumOf(table(down), "2", ask({ response: "grade", atDay: 21 }))).toEqual({ value: 0 });
    expect(datumOf(table(down), "2", ask({ response: "grade", atDay: 21, scale: "iso4628" }))).toEqual({ value: 5 });
  });

  test.each([
    // scale       1 (3 %)  2 (0.06 %)  better
    [null, 4, 9, "higher"],
    ["d610", 5, 8, "higher"],
    ["iso4628", 4, 2, "lower"],
  ] as const)("grades of the worst face on %s", (scale, first, second, better) => {
    const question = tableQuestion(table(rows), ask({ response: "grade", atDay: 14, scale }));
    expect(question.coupons.map((one) => one.datum)).toEqual([{ value: first }, { value: second }]);
    expect(question).toMatchObject({ kind: "ordinal", unit: "classes", better, response: "grade" });
  });

  test("no look in common is refused, and says what to give", () => {
    const apart = [look("1", "control", { day: 7, reading: 0 }), look("2", "oil", { day: 8, reading: 0 })];
    expect(() => tableQuestion(table(apart), ask({ response: "area" }))).toThrow(
      expect.objectContaining({ argument: "at", settledBy: "at" }),
    );
  });

  test("a day goes with area and grade only", () => {
    expect(() => tableQuestion(table(rows), ask({ atDay: 14 }))).toThrow(/^at is 14/);
  });
});

describe("who is compared with whom", () => {
  const named = (...treatments: string[]) =>
    table(treatments.map((treatment, at) => look(String(at), treatment, { day: 7, reading: 0 })));
  const groups = (from: PlainTable, asked: Partial<TableAsk> = {}) => {
    const { control, witnesses, family, treatments } = tableQuestion(from, ask(asked));
    return { control, witnesses, family, treatments };
  };

  test.each([
    [
      ["oil", "Control", "wax"],
      {},
      { control: "Control", witnesses: [], family: "control", treatments: ["oil", "Control", "wax"] },
    ],
    [["oil", "wax"], {}, { control: null, witnesses: [], family: "pairs", treatments: ["oil", "wax"] }],
    [
      ["oil", "wax"],
      { control: " WAX" },
      { control: "wax", witnesses: [], family: "control", treatments: ["oil", "wax"] },
    ],
    [
      ["oil", "control"],
      { family: "pairs" },
      { control: "control", witnesses: [], family: "pairs", treatments: ["oil", "control"] },
    ],
    [["Bare", "oil", "wax"], {}, { control: null, witnesses: ["Bare"], family: "pairs", treatments: ["oil", "wax"] }],
    [
      ["bare", "oil", "wax"],
      { control: "bare" },
      { control: "bare", witnesses: [], family: "control", treatments: ["bare", "oil", "wax"] },
    ],
    [
      ["steel", "oil", "wax"],
      { witness: "steel" },
      { control: null, witnesses: ["steel"], family: "pairs", treatments: ["oil", "wax"] },
    ],
  ] as const)("%o with %o", (treatments, asked, expected) => {
    expect(groups(named(...treatments), asked)).toEqual(expected);
  });

  test.each([
    [{ control: "tallow" }, /^control is "tallow"; expected one of "oil", "wax"/],
    [{ witness: "tallow" }, /^witness is "tallow"/],
    [{ control: "oil", witness: "oil" }, /^witness /],
    [{ family: "control" }, /^family /],
    [{ witness: "oil" }, /^treatment .* two treatments or more/],
    [{ margin: 1 }, /^margin is 1; expected a factor above 1/],
    [{ margin: 0 }, /^margin /],
    [{ thresholdPercent: 101 }, /^threshold /],
    [{ seed: -1 }, /^seed /],
  ] as const)("%o is refused", (asked, message) => {
    expect(() => groups(named("oil", "wax"), asked)).toThrow(message);
  });

  test("a treatment keeps the spelling in which it appears first", () => {
    const mixed = [
      look("1", "Oil ", { day: 7, reading: 0 }),
      look("2", "oil", { day: 7, reading: 0 }),
      look("3", "wax", { day: 7, reading: 0 }),
    ];
    expect(tableQuestion(table(mixed), ask()).coupons.map((one) => one.treatment)).toEqual(["Oil", "Oil", "wax"]);
  });

  test("witnesses are read and reported, not compared", () => {
    const rows = [...rest, look("9", "bare", { day: 7, reading: 30 })];
    const question = tableQuestion(table(rows), ask());
    expect(question.treatments).toEqual(["control", "oil"]);
    expect(question.coupons.map((one) => one.coupon)).toContain("9");
    expect(question.notes).toContain("Witness bare, 1 coupon: the first by day 7, all by day 7.");
  });
});

describe("what is known of each coupon", () => {
  test("circumstances, deviation and block; batch is a step, not a circumstance", () => {
    const about = {
      site: "yard",
      rackRow: 1,
      rackColumn: 2,
      edge: "no",
      deviation: "dropped",
      batch: "b1",
      block: "A",
    };
    const rows = [
      look("1", "control", { day: 7, reading: 0, ...about, inspector: "Ida" }),
      look("1", "control", { day: 14, reading: 0, inspector: "Per" }),
      look("2", "oil", { day: 7, reading: 0, block: "A", batch: "b2" }),
    ];
    const question = tableQuestion(table(rows), ask());
    expect(question.treatedSeparately).toBe("recorded");
    expect(question.coupons[0]).toEqual({
      coupon: "1",
      treatment: "control",
      block: "A",
      applications: { batch: "b1" },
      circumstances: { site: "yard", row: 1, column: 2, edge: "no", inspector: "Ida and Per" },
      deviation: "dropped",
      datum: { left: 14, right: null },
    });
    expect(question.coupons[1]?.circumstances).toEqual({
      site: null,
      row: null,
      column: null,
      edge: null,
      inspector: null,
    });
  });

  test("nobody said how they were treated: assumed, confirmed, or recorded", () => {
    expect(tableQuestion(table(rest), ask())).toMatchObject({
      treatedSeparately: "assumed",
      coupons: [{ applications: {} }, { applications: {} }],
    });
    expect(tableQuestion(table(rest), ask({ treatedSeparately: true })).treatedSeparately).toBe("confirmed");
    const witnessOnly = [...rest, look("9", "bare", { day: 7, reading: 3, batch: "b1" })];
    expect(tableQuestion(table(witnessOnly), ask()).treatedSeparately).toBe("assumed");
    const skipped = [{ ...rest[0]!, batch: "b1" }, rest[1]!];
    expect(tableQuestion(table(skipped), ask()).coupons.map((one) => one.applications)).toEqual([
      { batch: "b1" },
      { batch: null },
    ]);
  });

  test("blocks for some of the compared coupons only are refused; a witness may stand outside", () => {
    const half = [{ ...rest[0]!, block: "A" }, rest[1]!];
    expect(() => tableQuestion(table(half), ask())).toThrow(/^block .*coupon 2/);
    const inBlocks = [...rest.map((row) => ({ ...row, block: "A" })), look("9", "bare", { day: 7, reading: 3 })];
    expect(tableQuestion(table(inBlocks), ask()).coupons.map((one) => one.block)).toEqual(["A", "A", null]);
  });

  test("what was assumed is said, and taken back", () => {
    expect(tableQuestion(table(rest), ask()).notes.filter((note) => note.startsWith("Assumed"))).toHaveLength(4);
    const taken = tableQuestion(
      table(rest),
      ask({ notRandomised: true, notBlind: true, exploratory: true, treatedSeparately: true }),
    );
    expect(taken).toMatchObject({ randomised: false, blind: false, declared: false });
    expect(taken.notes.filter((note) => note.startsWith("Assumed"))).toEqual([]);
    expect(taken.notes).toHaveLength(4);
  });
});

describe("times and values", () => {
  const time = (coupon: string, treatment: string, left: number, right: number | null): TimeRow => ({
    ...blank,
    coupon,
    treatment,
    left,
    right,
  });
  const value = (coupon: string, treatment: string, of: number): ValueRow => ({
    ...blank,
    coupon,
    treatment,
    value: of,
  });

  test("strokes are times; 0 with no right end carries nothing", () => {
    const rows = [time("1", "dry", 40, 50), time("2", "waxed", 0, null), time("3", "waxed", 90, 90)];
    const question = tableQuestion({ kind: "times", unit: "strokes", rows, notes: [] }, ask());
    expect(question).toMatchObject({ response: "strokes to breakthrough", kind: "time", unit: "strokes" });
    expect(question.coupons.map((one) => one.datum)).toEqual([
      { left: 40, right: 50 },
      { left: 90, right: 90 },
    ]);
    expect(question.notes.join()).toContain("Coupon 2 carries nothing");
  });

  test.each([
    ["continuous", { ratio: true }, { ratio: true, detectionLimitPercent: null }],
    ["area", {}, { ratio: false, detectionLimitPercent: 0.01, unit: "%" }],
    ["area", { thresholdPercent: 0.1 }, { detectionLimitPercent: 0.1 }],
  ] as const)("values of kind %s with %o", (valueKind, asked, expected) => {
    const rows = [value("1", "a", 3), value("2", "b", 4)];
    const from: PlainTable = {
      kind: "values",
      response: "coating mass",
      valueKind,
      better: "higher",
      scale: null,
      tapeLetter: null,
      rows,
      notes: [],
    };
    expect(tableQuestion(from, ask(asked))).toMatchObject({ response: "coating mass", kind: valueKind, ...expected });
  });

  test.each([
    ["binary", 1, /between 0 and 1/],
    ["area", 0.5, /a factor above 1/],
  ] as const)("a margin of a %s response is never %d", (valueKind, margin, message) => {
    const rows = [value("1", "a", 0), value("2", "b", 1)];
    const from: PlainTable = {
      kind: "values",
      response: "held",
      valueKind,
      better: "higher",
      scale: null,
      tapeLetter: null,
      rows,
      notes: [],
    };
    expect(() => tableQuestion(from, ask({ margin }))).toThrow(message);
  });
});
