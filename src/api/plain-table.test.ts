import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { noReadingWishes, type TableReadingWishes } from "../core/trial/plain-table.ts";
import { readPlainTable } from "./plain-table.ts";
import { tableCsv } from "./plain-table-csv.ts";
import { decodeTable } from "./plain-table-text.ts";

const read = (text: string, wishes: Partial<TableReadingWishes> = {}) =>
  readPlainTable(text, { ...noReadingWishes, ...wishes });
const lines = (...rows: string[]) => `${rows.join("\n")}\n`;
const said = (text: string, wishes: Partial<TableReadingWishes> = {}) =>
  read(text, wishes).problems.map(({ row, column, value, expected }) => `row ${row}, ${column}: ${value}; ${expected}`);

const looks = (...rows: string[]) => lines("coupon,treatment,day,rusted_percent", ...rows);

describe("the form of a table", () => {
  test.each([
    ["comma", looks("1,oil,7,0.5")],
    ["semicolon, decimal comma", lines("coupon;treatment;day;rusted_percent", "1;oil;7;0,5")],
    ["tab", lines("coupon\ttreatment\tday\trusted_percent", "1\toil\t7\t0.5")],
    ["header in any case, with spaces and underscores", lines("COUPON,Treatment,day,Rusted Percent", "1,oil,7,0.5")],
    ["columns in another order", lines("rusted_percent,day,treatment,coupon", "0.5,7,oil,1")],
    ["byte order mark, CRLF, no line end at the last row", "\uFEFFcoupon,treatment,day,rusted_percent\r\n1,oil,7,0.5"],
    [
      "quotes, a comma in quotes, an empty line",
      lines('"coupon","treatment",day,rusted_percent', "", '"1",oil,7,"0,5"'),
    ],
    ["a percent sign", looks("1,oil,7,0.5 %")],
    ["a column more, empty", lines("coupon,treatment,day,rusted_percent", "1,oil,7,0.5,")],
  ])("%s is read", (_what, text) => {
    const { table, problems } = read(text);
    expect(problems).toEqual([]);
    expect(table).toMatchObject({
      kind: "looks",
      rows: [{ coupon: "1", treatment: "oil", when: { day: 7 }, reading: 0.5 }],
    });
  });

  test.each([
    ["parted by |", "coupon|treatment|day|rusted_percent\n1|oil|7|0.5\n", "parted by commas, semicolons or tabs"],
    [
      "a letter to a friend",
      "Dear Per,\nthe shed is dry again.\n",
      "a header row with the columns coupon and treatment",
    ],
    ["nothing at all", "", "a header row"],
    ["only empty lines", "\n\n", "a header row"],
    ["a header and no row", "coupon,treatment,day,rusted_percent\n", "a row for each coupon"],
    ["nothing measured", lines("coupon,treatment,day", "1,oil,7"), "rusted_percent, rating or word"],
    ["two forms at once", lines("coupon,treatment,day,rusted_percent,value", "1,oil,7,0,3"), "one form only"],
    ["a column twice", lines("coupon,treatment,day,Day,rusted_percent", "1,oil,7,8,0"), "each column once"],
    ["a quote left open", lines("coupon,treatment,day,rusted_percent", '"1,oil,7,0'), "cells in pairs of quotes"],
    ["a cell too few", looks("1,oil,7"), "4 cells"],
  ])("%s is refused", (_what, text, expected) => {
    expect(said(text).join()).toContain(expected);
    expect(read(text).table).toBeNull();
  });

  test("a decimal comma without quotes in a table of commas says what it is", () => {
    expect(said(looks("1,oil,7,0,5"))).toEqual([
      "row 2, null: 5 cells; 4 cells, parted by commas like the header; a decimal comma in a table parted by commas stands in quotes",
    ]);
  });

  test("other columns are carried along, and shown as such", () => {
    const { understood } = read(lines("coupon,treatment,day,rusted_percent,weather", "1,oil,7,0,rain"));
    expect(understood.columns.at(-1)).toEqual({ header: "weather", means: null });
    expect(understood).toMatchObject({
      form: "looks",
      delimiter: "comma",
      rowsRead: 1,
      coupons: 1,
      treatments: ["oil"],
    });
  });

  test("bytes that are not UTF-8 are not guessed at", () => {
    expect(decodeTable(Uint8Array.of(0x6f, 0xf6, 0x6c))).toBeNull();
  });
});

describe("cells", () => {
  test("every cell that cannot be read is named, not only the first", () => {
    expect(said(looks("1,oil,seven,120", "2,,7,-1", ",wax,7,n/a", "4,wax,-7,0"))).toEqual([
      "row 2, day: seven; days since the start, 0 or more (a number, without thousands marks)",
      "row 2, rusted_percent: 120; a percentage from 0 to 100",
      "row 3, treatment: empty; the name of a treatment",
      "row 3, rusted_percent: -1; a percentage from 0 to 100",
      "row 4, coupon: empty; the coupon's number or name",
      "row 4, rusted_percent: n/a; a percentage from 0 to 100 (a number, without thousands marks)",
      "row 5, day: -7; days since the start, 0 or more",
    ]);
  });

  test("empty and NA are missing: a missed look", () => {
    const { table } = read(looks("1,oil,7,NA", "1,oil,14,", "1,oil,21,0"));
    expect(table?.rows).toMatchObject([{ reading: null }, { reading: null }, { reading: 0 }]);
  });

  test.each([
    // value      delimiter  reads as       why
    ["0,5", ";", 0.5, "decimal comma"],
    ["1,234", ";", 1.234, "the comma does not part cells here, and there are no thousands marks"],
    ["0,125", ",", 0.125, "cannot be thousands"],
    ["1,234", ",", null, "1.234, or one thousand and more"],
    ["1.234,5", ";", null, "thousands marks"],
    ["1e-2", ",", 0.01, "power of ten"],
    [".5", ",", 0.5, "no leading 0"],
    ["<0.01", ",", null, "not a number"],
    ["0.5.1", ",", null, "not a number"],
  ] as const)("%s in a table parted by %s reads as %s (%s)", (value, delimiter, number, _why) => {
    const text = [
      ["coupon", "treatment", "day", "rusted_percent"],
      ["1", "oil", "7", `"${value}"`],
    ]
      .map((row) => row.join(delimiter))
      .join("\n");
    const { table, problems } = read(text);
    expect(table?.rows).toEqual(number === null ? undefined : [expect.objectContaining({ reading: number })]);
    expect(problems).toHaveLength(number === null ? 1 : 0);
  });

  test("point and comma in one table: the comma is refused where it stands", () => {
    expect(said(looks("1,oil,7,0.5", '2,oil,7,"0,5"'))[0]).toContain("row 3, rusted_percent: 0,5; ");
  });

  test("a rating is a whole class of its scale", () => {
    const table = lines("coupon,treatment,day,rating", "1,oil,7,10", "2,oil,7,9.5", "3,oil,7,11");
    expect(said(table)).toHaveLength(2);
    expect(said(table)[0]).toContain("a whole class from 10 (best) to 0 of the ISO 10289 table");
    expect(said(table, { scale: "iso4628" })).toHaveLength(3);
  });

  test("words need a percent each; an unknown one is named", () => {
    const table = lines("coupon,treatment,day,word", "1,oil,7,None", "2,oil,7,spots", "3,oil,7,speckled");
    const asked = read(table).questions[0];
    expect(asked).toMatchObject({ about: "words", answers: ["none", "spots", "speckled"] });
    const words = { none: 0, spots: 3 };
    expect(said(table, { words })).toEqual(["row 4, word: speckled; one of none, spots"]);
    expect(read(lines("coupon,treatment,day,word", "1,oil,7,Spots"), { words }).table?.rows[0]).toMatchObject({
      reading: 3,
    });
  });

  test("several readings of a look: the percent is taken, and that is said", () => {
    const { table } = read(lines("coupon,treatment,day,rating,rusted_percent", "1,oil,7,5,0.2"));
    expect(table).toMatchObject({ readings: "percent", rows: [{ reading: 0.2 }] });
    expect(table?.notes.join()).toContain("rating was carried along");
  });
});

describe("dates", () => {
  const dated = (...dates: string[]) =>
    lines("coupon,treatment,date,rusted_percent", ...dates.map((date, at) => `${at + 1},oil,${date},0`));

  test.each([
    // written       order   date            why
    ["2026-05-03", null, "2026-05-03", "the calendar standard"],
    ["2026-05-03", "mdy", "2026-05-03", "whatever the others are"],
    ["2026-05-03T07:30", null, "2026-05-03", "with a time"],
    ["2026/5/3", null, "2026-05-03", "year in front"],
    ["13/05/2026", null, "2026-05-13", "there is no month 13"],
    ["05/13/2026", null, "2026-05-13", "there is no month 13"],
    ["05.05.2026", null, "2026-05-05", "the same both ways"],
    ["03/05/2026", "dmy", "2026-05-03", "said"],
    ["03/05/2026", "mdy", "2026-03-05", "said"],
    ["26-05-03", "ymd", "2026-05-03", "said, two-digit year"],
    ["03.05.26", "dmy", "2026-05-03", "said, two-digit year"],
  ] as const)("%s with --dates %s is %s (%s)", (written, dates, date, _why) => {
    expect(read(dated(written), { dates }).table?.rows[0]).toMatchObject({ when: { date } });
  });

  test.each([
    ["03/05/2026", null, "a date that can be read one way only"],
    ["03.05.2026", null, "one way only"],
    ["30.02.2026", "dmy", "a date of the calendar"],
    ["13/05/2026", "mdy", "month, day, year"],
    ["2026-13-01", null, "a date of the calendar"],
    ["spring", null, "a date such as"],
    ["45780", null, "a date such as"],
  ] as const)("%s with --dates %s is refused: %s", (written, dates, expected) => {
    expect(said(dated(written), { dates })[0]).toContain(expected);
  });

  test("a date that can be read two ways is a question, with its answers", () => {
    expect(read(dated("13/05/2026", "03/05/2026")).questions).toEqual([
      {
        about: "dates",
        question: "03/05/2026 can be 2026-05-03 (dmy) or 2026-03-05 (mdy): which?",
        answers: ["dmy", "mdy"],
      },
    ]);
  });

  test("day 0 is the earliest date, or what the user says; a look before it is refused by its row", () => {
    const table = dated("2026-05-10", "2026-05-03");
    expect(read(table).table).toMatchObject({ from: "2026-05-03" });
    expect(read(table, { from: "2026-05-01" }).table).toMatchObject({ from: "2026-05-01" });
    expect(said(table, { from: "2026-05-05" })).toEqual(["row 3, date: 2026-05-03; 2026-05-05 or later"]);
    expect(read(table, { from: "03/05/2026" }).problems[0]).toMatchObject({
      expected: "a date that can be read one way only",
      settledBy: { wish: "dates", answers: ["dmy", "mdy"] },
    });
    expect(said(looks("1,oil,7,0"), { from: "2026-05-05" })[0]).toContain("a table with dates");
  });
});

describe("rows that contradict each other", () => {
  test.each([
    [
      "two treatments for one coupon",
      looks("7,oil,7,0", "7,wax,14,0"),
      'row 3, treatment: wax; "oil", as row 2 says of coupon 7',
    ],
    [
      "two coupons with one number",
      looks("7,oil,7,0", "7,oil,7,3"),
      "row 3, coupon: 7; one row for each coupon, face and look",
    ],
    [
      "two rows in a table of times",
      lines("coupon,treatment,left_days,right_days", "7,oil,1,2", "7,oil,3,4"),
      "one row for each coupon; row 2",
    ],
    [
      "two blocks for one coupon",
      lines("coupon,treatment,day,rusted_percent,block", "7,oil,7,0,1", "7,oil,14,0,2"),
      "row 3, block: 2; 1, as row 2 says",
    ],
    [
      "a batch for some coupons of a treatment",
      lines("coupon,treatment,day,rusted_percent,batch", "7,oil,7,0,a", "8,Oil,7,0,"),
      "row 3, batch: empty; the batch of coupon 8",
    ],
    [
      "a look after it was taken down",
      lines("coupon,treatment,day,rusted_percent,taken_down", "7,oil,7,0,lost", "7,oil,10.5,0,"),
      "no row of coupon 7 after row 2",
    ],
    [
      "right before left",
      lines("coupon,treatment,left_days,right_days", "7,oil,14,7"),
      "row 2, right_days: 7; days from left_days (14) on, or empty",
    ],
    [
      "no left end",
      lines("coupon,treatment,left_days,right_days", "7,oil,,7"),
      "row 2, left_days: empty; days, 0 or more",
    ],
    ["a time of 0", lines("coupon,treatment,left_days,right_days", "7,oil,0,0"), "nothing happens at time 0"],
  ])("%s", (_what, text, expected) => {
    expect(said(text)).toHaveLength(1);
    expect(said(text)[0]).toContain(expected);
  });

  test("treatments match without regard to case and outer spaces, faces are looks of their own", () => {
    const text = lines("coupon,treatment,day,face,rusted_percent", "7,Oil,7,front,0", "7, oil ,7,back,1");
    expect(read(text)).toMatchObject({
      problems: [],
      understood: { coupons: 1, treatments: [expect.stringMatching(/oil/i)] },
    });
  });

  test("a batch that is empty on a whole treatment is a step it skips", () => {
    const text = lines("coupon,treatment,day,rusted_percent,batch", "7,oil,7,0,a", "8,bare steel,7,0,");
    expect(read(text).problems).toEqual([]);
  });
});

describe("values", () => {
  const values = (...cells: string[]) =>
    lines("coupon,treatment,value", ...cells.map((cell, at) => `${at + 1},oil,${cell}`));
  const wishes = { response: "tape", kind: "ordinal" } as const;

  test("the kind and the name are the user's to say", () => {
    expect(read(values("3")).questions.map((one) => one.about)).toEqual(["response", "kind"]);
    expect(read(values("3"), { response: "mass", kind: "continuous" }).questions[0]?.about).toBe("better");
  });

  test.each([
    // cells           wishes                          best, values
    [["5A", "0a"], {}, { best: 5, worst: 0 }, [5, 0]],
    [["5B", "3B"], {}, { best: 5, worst: 0 }, [5, 3]],
    [["5", "0"], {}, { best: 5, worst: 0 }, [5, 0]],
    [["0", "5"], { scale: "iso2409" }, { best: 0, worst: 5 }, [0, 5]],
    [["0", "5"], { better: "lower" }, { best: 0, worst: 5 }, [0, 5]],
    [["10", "7"], { scale: "d610" }, { best: 10, worst: 0 }, [10, 7]],
  ] as const)("classes %s with %o", (cells, more, scale, read_) => {
    const { table } = read(values(...cells), { ...wishes, ...more });
    expect(table).toMatchObject({ scale, rows: read_.map((value) => ({ value })) });
  });

  test.each([
    [["5A", "5B"], {}, "row 3, value: 5B; a class 5A to 0A, one kind in the whole table"],
    [["5B", "5"], {}, "row 3, value: 5; a class 5B to 0B"],
    [["6"], {}, "row 2, value: 6; a class 5 to 0"],
    [["4.5"], {}, "row 2, value: 4.5; a class 5 to 0"],
  ] as const)("classes %s with %o are refused", (cells, more, expected) => {
    expect(said(values(...cells), { ...wishes, ...more })[0]).toContain(expected);
  });

  test.each([
    [["yes", "No", "YES"], {}, [1, 0, 1]],
    [["1", "0"], {}, [1, 0]],
    [["1", "0"], { better: "lower" }, [0, 1]],
    [["pass", "fail"], { better: "lower" }, [1, 0]],
    [["Bad", "good"], {}, [0, 1]],
  ] as const)("binary %s with %o", (cells, more, read_) => {
    const { table } = read(values(...cells), { response: "held", kind: "binary", ...more });
    expect(table?.rows).toMatchObject(read_.map((value) => ({ value })));
  });

  test("binary words of two pairs, and percents beyond 100, are refused", () => {
    expect(said(values("yes", "fail"), { response: "held", kind: "binary" })[0]).toContain(
      "one pair in the whole table",
    );
    expect(said(values("101"), { response: "area", kind: "area" })[0]).toContain("a percentage from 0 to 100");
  });

  test("a coupon without a value is left out, and named", () => {
    const { table } = read(values("3", "NA"), wishes);
    expect(table?.rows).toHaveLength(1);
    expect(table?.notes).toEqual(["Left out, no value: coupon 2."]);
  });
});

describe("circumstances", () => {
  const text = lines("coupon,treatment,day,rusted_percent,Steel Stock,oven", "1,oil,7,0,A,21.5", "2,oil,7,0,B,NA");

  test("named columns are read, numbers as numbers", () => {
    const { table } = read(text, { circumstances: ["steel_stock", "oven"] });
    expect(table?.rows.map((row) => row.circumstances)).toEqual([
      { "Steel Stock": "A", oven: 21.5 },
      { "Steel Stock": "B", oven: null },
    ]);
  });

  test.each([
    [["humidity"], "a column of the table"],
    [["treatment"], "not the trial itself"],
  ])("%s is refused", (circumstances, expected) => {
    expect(said(text, { circumstances })[0]).toContain(expected);
  });
});

test.each(["=1+1", "+A1", "-A1", "@SUM(A1)", "'=1", "=cmd|' /C calc'!A0"])(
  "%s as a treatment is no formula to a spreadsheet, and comes back as it was",
  (treatment) => {
    const csv = tableCsv({
      header: ["coupon", "treatment", "day", "rusted_percent"],
      rows: [["1", treatment, 7, -0.5]],
    });
    expect(csv).toMatch(/\r\n1,"?'/);
    expect(csv).toMatch(/,-0\.5\r\n$/);
    const plus = tableCsv({
      header: ["coupon", "treatment", "day", "rusted_percent"],
      rows: [["1", treatment, 7, 0.5]],
    });
    expect(read(plus).table?.rows).toMatchObject([{ coupon: "1", treatment }]);
  },
);

test("whatever is in a cell, writing it and reading it again gives the same coupon and treatment", () => {
  const name = fc.string({ minLength: 1 }).map((text) => `x${text.replaceAll("\0", "")}x`.trim());
  fc.assert(
    fc.property(name, name, (coupon, treatment) => {
      const csv = tableCsv({
        header: ["coupon", "treatment", "day", "rusted_percent"],
        rows: [[coupon, treatment, 7, 0.5]],
      });
      expect(read(csv).table?.rows).toMatchObject([{ coupon, treatment, reading: 0.5 }]);
    }),
    { numRuns: 60 },
  );
});
