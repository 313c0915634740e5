/** A table, the trial made of it, and the tables made of that trial must all give the same answers. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { observationBody } from "../src/api/observation.ts";
import { readPlainTable } from "../src/api/plain-table.ts";
import { tableCsv } from "../src/api/plain-table-csv.ts";
import { plan as planSchema } from "../src/api/plan.ts";
import { answerQuestion } from "../src/core/trial/answer-question.ts";
import { valueKinds } from "../src/core/trial/declared-question.ts";
import { drawPlan } from "../src/core/trial/draw-plan.ts";
import type { AnsweredQuestion } from "../src/core/trial/finding.ts";
import { requireAcceptable } from "../src/core/trial/observation-rules.ts";
import { noReadingWishes, type PlainTable, type TableReadingWishes } from "../src/core/trial/plain-table.ts";
import { type OutgoingTable, plainTablesOf } from "../src/core/trial/plain-tables-of.ts";
import { scaleNames } from "../src/core/trial/scale-ends.ts";
import { plainAsk, type TableAsk, tableQuestion } from "../src/core/trial/table-question.ts";
import { type TableTrialWishes, trialFromTable } from "../src/core/trial/trial-from-table.ts";
import { declaredQuestions, trialQuestions } from "../src/core/trial/trial-questions.ts";
import {
  type Observation,
  type ObservationBody,
  type TrialRecord,
  trialRecord,
} from "../src/core/trial/trial-record.ts";

const fixture = (name: string) => readFileSync(join(import.meta.dirname, "tables", name), "utf8");

function tableOf(text: string, wishes: Partial<TableReadingWishes> = {}): PlainTable {
  const { table, problems, questions } = readPlainTable(text, { ...noReadingWishes, ...wishes });
  if (!table) throw new Error(JSON.stringify([problems, questions]));
  return table;
}

const wishes: TableTrialWishes = {
  question: "What keeps longer?",
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  startedOn: null,
  by: "Ida",
};

/** Recorded one by one, each held against the rules of a trial, as a shop does it. */
function recordOf(bodies: readonly { by: string; body: ObservationBody }[]): TrialRecord {
  const trial = { id: "0", name: "shed" };
  const observations: Observation[] = [];
  for (const [at, { by, body }] of bodies.entries()) {
    const one: Observation = { id: String(at), recordedAt: "2026-07-01T09:00:00Z", by, corrects: null, body };
    requireAcceptable({ ...trial, observations }, one);
    observations.push(one);
  }
  return trialRecord(trial, observations);
}

function recordFrom(table: PlainTable, ask: TableAsk, more: Partial<TableTrialWishes> = {}): TrialRecord {
  const { plan, observations } = trialFromTable(table, ask, { ...wishes, ...more });
  planSchema.parse(plan);
  for (const { body } of observations) observationBody.parse(body);
  return recordOf([{ by: "Ida", body: { kind: "plan", plan } }, ...observations]);
}

/**
 * All but the notes (a table assumes aloud what a plan knows), a witness of which nothing was read, and the order of the
 * points.
 */
const said = ({ notes: _notes, witnesses: _witnesses, points, ...answer }: AnsweredQuestion) => ({
  ...answer,
  points: [...points].sort((a, b) => a.coupon.localeCompare(b.coupon)),
});

/** What `findings FILE FLAGS` would read of an outgoing table. */
function asked(table: OutgoingTable): AnsweredQuestion {
  const flag = (name: string) => {
    const at = table.flags.indexOf(`--${name}`);
    return at < 0 ? null : (table.flags[at + 1] ?? "");
  };
  const number = (name: string) => (flag(name) === null ? null : Number(flag(name)));
  const better = flag("better");
  const read = tableOf(tableCsv(table), {
    response: flag("response"),
    kind: valueKinds.find((one) => one === flag("kind")) ?? null,
    better: better === "higher" || better === "lower" ? better : null,
    scale: scaleNames.find((one) => one === flag("scale")) ?? null,
    circumstances: flag("circumstance")?.split(",") ?? [],
  });
  return answerQuestion(
    tableQuestion(read, {
      ...plainAsk,
      control: flag("control"),
      witness: flag("witness"),
      family: flag("family") === "control" ? "control" : "pairs",
      margin: number("margin"),
      thresholdPercent: number("threshold"),
      seed: number("seed") ?? 1,
      treatedSeparately: table.flags.includes("--treated-separately"),
      notRandomised: table.flags.includes("--not-randomised"),
      notBlind: table.flags.includes("--not-blind"),
      exploratory: table.flags.includes("--exploratory"),
      ratio: table.flags.includes("--log"),
    }),
  );
}

describe("a table, its trial, and its tables again", () => {
  const dmy = { dates: "dmy" } as const;
  const tape = { response: "tape class", kind: "ordinal" } as const;
  test.each([
    ["shed-looks.csv", {}, {}],
    ["shed-looks.csv", {}, { margin: 1.5, thresholdPercent: 0.1, notRandomised: true, notBlind: true }],
    ["shed-looks.csv", {}, { response: "area", margin: 2 }],
    ["shed-looks.csv", {}, { response: "area", atDay: 14 }],
    ["shed-looks.csv", {}, { control: "emulsion oil", treatedSeparately: true }],
    ["shed-looks.csv", {}, { family: "pairs" }],
    ["two-oils-dates.csv", dmy, {}],
    ["two-oils-dates.csv", { ...dmy, from: "30/03/2026" }, { control: "öl" }],
    ["shed-looks.csv", {}, { response: "grade", scale: "d610", margin: 1 }],
    ["shed-looks.csv", {}, { response: "grade", atDay: 14, exploratory: true, seed: 9 }],
    ["tape-classes.csv", tape, { margin: 1 }],
    ["tape-classes.csv", { ...tape, response: "adhesion" }, {}],
    ["wear-strokes.csv", {}, { margin: 1.5 }],
    ["coating-mass.csv", { response: "coating mass", kind: "continuous", better: "higher" }, { margin: 2 }],
    [
      "coating-mass.csv",
      { response: "oil left, g", kind: "continuous", better: "lower" },
      { ratio: true, margin: 1.2 },
    ],
  ] as const)("%s read with %o, asked with %o", (name, reading, asking) => {
    const table = tableOf(fixture(name), reading);
    const ask: TableAsk = { ...plainAsk, ...asking };
    const answer = said(answerQuestion(tableQuestion(table, ask)));
    expect(answer.findings.length).toBeGreaterThan(0);

    const record = recordFrom(table, ask);
    const [question, ...others] = trialQuestions(record);
    expect(others).toEqual([]);
    expect(said(answerQuestion(question!))).toEqual(answer);

    const { tables, cannot } = plainTablesOf(record);
    expect(cannot).toEqual([]);
    expect(tables.map((one) => said(asked(one)))).toEqual([answer]);
  });

  const rows = (header: string, ofOil: readonly string[], ofWax: readonly string[]) =>
    [
      `coupon,treatment,${header}`,
      ...ofOil.map((cells, at) => `O${at},oil,${cells}`),
      ...ofWax.map((cells, at) => `W${at},wax,${cells}`),
    ].join("\n");
  const classes = { response: "look of it", kind: "ordinal" } as const;
  test.each<[string, string, Partial<TableReadingWishes>, Partial<TableAsk>]>([
    [
      "times in days",
      rows("left_days,right_days", ["0,3", "3,7", "3,7", "5,5"], ["7,", "14,21", "0,", "21,28"]),
      {},
      { margin: 2 },
    ],
    [
      "strokes",
      rows(
        "left_strokes,right_strokes,edge",
        ["5,10,left", "10,15,", "10,15,left", "5,5,"],
        ["20,30,", "60,,", "20,30,left", "40,60,"],
      ),
      {},
      {},
    ],
    ["one coupon each", rows("left_strokes,right_strokes", ["5,10"], ["20,"]), {}, {}],
    [
      "yes and no, no the good one",
      rows("value", ["yes", "yes", "no", "yes"], ["no", "no", "no", "no"]),
      { response: "peels", kind: "binary", better: "lower" },
      { margin: 0.3 },
    ],
    [
      "pass and fail",
      rows("value", ["fail", "fail", "pass", ""], ["pass", "pass", "pass", "pass"]),
      { response: "holds", kind: "binary" },
      { notBlind: true },
    ],
    ["bare classes, 5 the best", rows("value", ["2", "3", "3", "4"], ["4", "5", "5", "5"]), classes, { margin: 1 }],
    [
      "bare classes, 0 the best",
      rows("value", ["2", "3", "3", "4"], ["1", "0", "0", "1"]),
      { ...classes, better: "lower" },
      {},
    ],
    [
      "classes of a named scale",
      rows("value", ["2", "3", "3", "9"], ["7", "10", "8", "8"]),
      { ...classes, scale: "d610" },
      {},
    ],
    [
      "areas as values",
      rows("value", ["2", "30", "0", "9.5"], ["0", "0", "0.5", "1"]),
      { response: "loss of paint", kind: "area" },
      { thresholdPercent: 0.2 },
    ],
    [
      "areas of which more is better",
      rows("value", ["2", "30", "0", "9.5"], ["0", "0", "0.5", "1"]),
      { response: "cover", kind: "area", better: "higher" },
      {},
    ],
    [
      "numbers below 0",
      rows("value,batch", ["-2,p", "-1,p", "3,q", "1e-3,r"], ["5,s", "6,t", "7,u", "8,v"]),
      { response: "L*", kind: "continuous", better: "higher" },
      { exploratory: true, seed: 4 },
    ],
    [
      "ratings of which first rust is asked",
      rows("day,rating", ["7,10", "7,9", "7,8"], ["7,10", "7,10", "7,10"]),
      {},
      {},
    ],
    [
      "ratings of which the grade is asked",
      rows("day,rating", ["7,10", "7,9", "7,8"], ["7,10", "7,10", "7,10"]),
      { scale: "d610" },
      { response: "grade", atDay: 7 },
    ],
    [
      "a scale on which 0 is the best",
      rows("day,rating,taken_down", ["7,0,", "7,3,rust", "7,5,"], ["7,0,", "7,0,", "7,1,"]),
      { scale: "iso4628" },
      { response: "grade" },
    ],
    [
      "words",
      rows("day,word", ["7,none", "7,spots", "7,all"], ["7,none", "7,none", "7,spots"]),
      { words: { none: 0, spots: 3, all: 60 } },
      { response: "area" },
    ],
  ])("%s", (_what, text, reading, asking) => {
    const table = tableOf(text, reading);
    const ask: TableAsk = { ...plainAsk, ...asking };
    const answer = said(answerQuestion(tableQuestion(table, ask)));
    const record = recordFrom(table, ask);
    expect(trialQuestions(record).map((question) => said(answerQuestion(question)))).toEqual([answer]);
    const { tables, cannot } = plainTablesOf(record);
    expect(cannot).toEqual([]);
    expect(tables.map((one) => said(asked(one)))).toEqual([answer]);
  });

  test("what findings refuses of ratings is refused here too", () => {
    const rated = tableOf("coupon,treatment,day,rating\n1,oil,7,9\n2,wax,7,10\n");
    expect(() => trialFromTable(rated, { ...plainAsk, response: "area" }, wishes)).toThrow(/^response /);
    expect(() => trialFromTable(rated, { ...plainAsk, thresholdPercent: 1 }, wishes)).toThrow(/^threshold /);
    expect(() => trialFromTable(rated, { ...plainAsk, atDay: 7 }, wishes)).toThrow(/^at /);
  });

  test("a table gives no date to what it gives none: not the day it was brought", () => {
    const tape = tableOf(fixture("tape-classes.csv"), { response: "tape class", kind: "ordinal" });
    expect(recordFrom(tape, plainAsk).tapeTests.map(({ body }) => body.when)).toEqual(Array(12).fill(null));
    const mass = tableOf(fixture("coating-mass.csv"), { response: "mass", kind: "continuous", better: "higher" });
    const record = recordFrom(mass, plainAsk);
    expect(new Set(record.values.map(({ body }) => body.when))).toEqual(new Set([null]));
    expect(new Set(record.applications.map(({ body }) => body.startedAt))).toEqual(new Set([null]));
  });

  test("batches of a table are steps of its trial", () => {
    const rows = ["coupon,treatment,day,rusted_percent,batch"];
    for (const [treatment, batches] of [
      ["oil", "aabbcc"],
      ["wax", "ddefgh"],
      ["control", "------"],
    ] as const)
      for (const [at, batch] of [...batches].entries())
        for (const day of [2, 5, 9, 14])
          rows.push(
            `${treatment}${at},${treatment},${day},${day > 4 + 2 * at + treatment.length ? 1 : 0},${batch === "-" ? "" : batch}`,
          );
    const table = tableOf(`${rows.join("\n")}\n`);
    const answer = answerQuestion(tableQuestion(table, plainAsk));
    expect(answer.findings[0]?.n).toEqual([3, 6]);
    const record = recordFrom(table, plainAsk);
    const findings = ({ findings: all }: AnsweredQuestion) =>
      all.map(({ n, p, pAdjusted, effect, verdict }) => ({ n, p, pAdjusted, effect, verdict }));
    expect(findings(answerQuestion(trialQuestions(record)[0]!))).toEqual(findings(answer));
    expect(findings(asked(plainTablesOf(record).tables[0]!))).toEqual(findings(answer));
  });

  test("what a table says beside its readings is kept, and confuses as before", () => {
    const table = tableOf(
      [
        "coupon,treatment,day,rusted_percent,site,row,column,edge,inspector,oven",
        ...["a", "b", "c", "d"].map((coupon, at) => `${coupon},oil,7,${at},yard,A,${at},yes,Ann,20`),
        ...["e", "f", "g", "h"].map((coupon, at) => `${coupon},wax,7,${at},roof,B,${at},no,Bo,21`),
      ].join("\n"),
      { circumstances: ["oven"] },
    );
    const answer = answerQuestion(tableQuestion(table, plainAsk));
    expect(answer.confounded.map((one) => one.circumstance)).toEqual(["site", "row", "edge", "inspector", "oven"]);
    const record = recordFrom(table, plainAsk);
    expect(answerQuestion(trialQuestions(record)[0]!).confounded).toEqual(answer.confounded);
    expect(plainTablesOf(record).tables.map((one) => asked(one).confounded)).toEqual([answer.confounded]);
    // With a start the sites are told by putting out.
    const dated = recordFrom(table, plainAsk, { startedOn: "2026-05-01" });
    expect(answerQuestion(trialQuestions(dated)[0]!).confounded).toEqual(answer.confounded);
  });

  test("three faces keep their names, and the worst counts", () => {
    const table = tableOf(
      "coupon,treatment,day,rusted_percent,face\n1,oil,7,0,top\n1,oil,7,2,Left\n1,oil,7,0,right\n2,wax,7,0,top\n",
    );
    const record = recordFrom(table, plainAsk);
    expect(record.looks.map(({ body }) => body.face)).toEqual(["top", "Left", "right", "top"]);
    expect(trialQuestions(record)[0]?.coupons.map(({ datum }) => datum)).toEqual([
      { left: 0, right: 7 },
      { left: 7, right: null },
    ]);
  });
});

describe("a trial that was drawn here", () => {
  const alone = (name: string) => ({ name, treated: "alone" }) as const;
  const bath = { name: "manganese phosphate, 95 °C", treated: "together" } as const;
  const plan = drawPlan({
    question: "",
    questions: [
      { response: "time to first rust", family: "control", margin: 1.5, atDay: null },
      { response: "rusted area", family: "control", margin: 2, atDay: 14 },
      { response: "tape class", family: "pairs", margin: null, atDay: null },
    ],
    treatments: [
      { name: "oil", role: "control", route: [bath, alone("oil dip")], coupons: 5 },
      { name: "wax", role: "finish", route: [bath, alone("wax wipe")], coupons: 5 },
      { name: "steel", role: "witness", route: [], coupons: 2 },
    ],
    couponSize: wishes.couponSize,
    edgeBandMm: 5,
    rustThresholdPercent: 0.02,
    lookDays: [1, 2, 4, 7, 10, 14],
    blocks: 1,
    rackColumns: 4,
    sparesOfEach: 0,
    seed: 77,
  });
  const coupons = plan.places.map((place) => place.coupon);
  const treatmentOf = (coupon: string) => plan.places.find((place) => place.coupon === coupon)!.treatment;
  const application = (step: string, of: readonly string[], minute: number): ObservationBody => ({
    kind: "application",
    step,
    coupons: [...of],
    startedAt: `2026-05-01T08:${String(minute).padStart(2, "0")}:00Z`,
    endedAt: `2026-05-01T08:${String(minute + 1).padStart(2, "0")}:00Z`,
    tempC: 20 + minute / 10,
    note: "",
  });
  const rustDay = (coupon: string) => ({ oil: 1.5, wax: 6, steel: 0.5 })[treatmentOf(coupon)]! + Number(coupon) / 4;
  const look = (coupon: string, date: string, day: number): ObservationBody => ({
    kind: "look",
    coupon,
    face: "front",
    when: { date },
    rustedPercent: day > rustDay(coupon) ? Math.min(100, day - rustDay(coupon)) : 0,
    edgePercent: null,
    how: "eye",
    blind: true,
    measurement: null,
  });
  const coated = coupons.filter((coupon) => treatmentOf(coupon) !== "steel");
  const stepOf = (coupon: string) => (treatmentOf(coupon) === "oil" ? "oil dip" : "wax wipe");
  const before: ObservationBody[] = [
    { kind: "plan", plan },
    application(bath.name, coated, 0),
    ...coated.map((coupon, at) => application(stepOf(coupon), [coupon], 5 + at)),
    { kind: "put out", site: "shed", date: "2026-05-02", coupons },
  ];
  const all: ObservationBody[] = [
    ...before,
    // Day 14 was a Saturday: one coupon was looked at on Friday, the others on Sunday.
    ...[1, 2, 4, 7, 10].flatMap((day) =>
      coupons.map((coupon) => look(coupon, `2026-05-${String(2 + day).padStart(2, "0")}`, day)),
    ),
    ...coupons.map((coupon, at) => (at === 0 ? look(coupon, "2026-05-15", 13) : look(coupon, "2026-05-17", 15))),
    { kind: "deviation", coupons: [coated[1]!], step: "oil dip", what: "dripped on the bench", paperworkOnly: false },
    { kind: "deviation", coupons: [coated[2]!], step: null, what: "label written anew", paperworkOnly: true },
    ...coated.map(
      (coupon): ObservationBody => ({
        kind: "tape test",
        coupon,
        when: { date: "2026-05-20" },
        tapeClass: treatmentOf(coupon) === "oil" ? "2B" : "4B",
        blind: true,
        note: "",
      }),
    ),
    { kind: "tape test", coupon: coated[0]!, when: { date: "2026-05-20" }, tapeClass: "1B", blind: true, note: "" },
  ];
  const record = (bodies: readonly ObservationBody[]) => recordOf(bodies.map((body) => ({ by: "Ida", body })));

  test("before the first look each question says why it is not answered", () => {
    expect(trialQuestions(record(before))).toEqual([]);
    expect(declaredQuestions(record(before)).every(({ why }) => why !== null)).toBe(true);
  });

  test("single dips are units, the shared bath is not; only deviations that count are there", () => {
    const [time] = trialQuestions(record(all));
    expect(time).toMatchObject({
      treatedSeparately: "recorded",
      randomised: true,
      blind: true,
      declared: true,
      seed: 77,
      margin: 1.5,
    });
    expect(answerQuestion(time!).findings[0]?.n).toEqual([5, 5]);
    expect(time!.coupons.flatMap((one) => (one.deviation ? [[one.coupon, one.deviation]] : []))).toEqual([
      [coated[1], "dripped on the bench"],
    ]);
    expect(Object.keys(time!.coupons[0]!.circumstances)).toEqual([
      "site",
      "start of exposure",
      "row",
      "column",
      "edge",
      "inspector",
      "temperature of manganese phosphate 95 °C",
      "time of manganese phosphate 95 °C",
    ]);
    expect(time!.notes.filter((note) => note.startsWith("Assumed"))).toEqual([]);
  });

  test("a look a day beside the planned day answers for it", () => {
    const area = trialQuestions(record(all)).find((one) => one.response === "rusted area")!;
    expect(area.coupons).toHaveLength(12);
  });

  test("the worst of a coupon's tape tests counts", () => {
    const tape = trialQuestions(record(all)).find((one) => one.response === "tape class")!;
    expect(tape.coupons.find((one) => one.coupon === coated[0])?.datum).toEqual({ value: 1 });
  });

  test("its tables, under their flags, give the answers of the trial", () => {
    const { tables, cannot } = plainTablesOf(record(all));
    expect(cannot).toEqual([]);
    expect(tables.map((one) => one.name)).toEqual(["looks", "rusted-area", "tape-class"]);
    const answers = trialQuestions(record(all)).map((question) => said(answerQuestion(question)));
    expect(tables.map((one) => said(asked(one)))).toEqual(answers);
  });

  test("single dips that nobody wrote down are assumed, and said so", () => {
    const unwritten = all.filter((body) => body.kind !== "application" || body.step === bath.name);
    const [time] = trialQuestions(record(unwritten));
    expect(time?.treatedSeparately).toBe("assumed");
    expect(time?.notes.join()).toContain("It was planned so, but not written down");
    expect(answerQuestion(time!).findings[0]?.n).toEqual([5, 5]);
  });

  test("one pot for all of a treatment is one unit, and its table says so too", () => {
    const oneDip = application(
      "oil dip",
      coated.filter((coupon) => treatmentOf(coupon) === "oil"),
      40,
    );
    const potted = [...all.filter((body) => body.kind !== "application" || body.step !== "oil dip"), oneDip];
    const answer = answerQuestion(trialQuestions(record(potted))[0]!);
    expect(answer).toMatchObject({ findings: [{ n: [5, 1], verdict: "cannot be told" }] });
    const table = plainTablesOf(record(potted)).tables[0]!;
    expect(asked(table)).toMatchObject({ findings: [{ n: [5, 1], verdict: "cannot be told" }] });
  });

  test("two steps that group the coupons in two ways: said, and the table says less, never more", () => {
    const waxed = coated.filter((coupon) => treatmentOf(coupon) === "wax");
    const others = all.filter(
      (body) => body.kind !== "plan" && (body.kind !== "application" || body.step === bath.name),
    );
    const drying = { name: "drying", treated: "together" } as const;
    const dried = {
      ...plan,
      treatments: plan.treatments.map((one) => (one.name === "wax" ? { ...one, route: [...one.route!, drying] } : one)),
    };
    const goes = [
      application("wax wipe", waxed.slice(0, 2), 10),
      ...waxed.slice(2).map((coupon, at) => application("wax wipe", [coupon], 12 + at)),
      application("drying", waxed.slice(1, 3), 20),
      ...[waxed[0]!, ...waxed.slice(3)].map((coupon, at) => application("drying", [coupon], 22 + at)),
      ...coated
        .filter((coupon) => !waxed.includes(coupon))
        .map((coupon, at) => application("oil dip", [coupon], 30 + at)),
    ];
    const several = record([{ kind: "plan", plan: dried }, ...goes, ...others]);
    const { tables, cannot } = plainTablesOf(several);
    expect(cannot.join()).toContain("wax wipe, drying");
    const n = (answer: AnsweredQuestion) => answer.findings[0]?.n;
    expect(n(answerQuestion(trialQuestions(several)[0]!))).toEqual([3, 5]);
    expect(n(asked(tables[0]!))).toEqual([3, 5]);
  });

  test("rust on day 0 leaves the other questions standing", () => {
    const rusty = [...all, { ...look(coated[0]!, "2026-05-02", 0), rustedPercent: 1 } as ObservationBody];
    const [time, area] = declaredQuestions(record(rusty));
    expect(time?.why).toContain(`coupon is "${coated[0]}"`);
    expect(area?.question).not.toBeNull();
  });
});
