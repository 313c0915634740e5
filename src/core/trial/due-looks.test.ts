import { describe, expect, test } from "vitest";
import { drawPlan } from "./draw-plan.ts";
import { dueLooks } from "./due-looks.ts";
import { type Observation, type ObservationBody, trialRecord } from "./trial-record.ts";

const plan = drawPlan({
  question: "",
  questions: [],
  treatments: ["oil", "wax"].map((name) => ({ name, role: "finish", route: [], coupons: 2 })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7, 1, 4, 14],
  blocks: 1,
  rackColumns: 4,
  sparesOfEach: 0,
  seed: 1,
});
const recordOf = (...bodies: ObservationBody[]) =>
  trialRecord(
    { id: "t", name: "shed" },
    [{ kind: "plan", plan } as const, ...bodies].map(
      (body, at): Observation => ({
        id: String(at),
        recordedAt: "2026-05-01T08:00:00Z",
        by: "Ida",
        corrects: null,
        body,
      }),
    ),
  );
const out = (date: string, ...coupons: string[]): ObservationBody => ({ kind: "put out", site: "shed", date, coupons });
const look = (coupon: string, date: string): ObservationBody => ({
  kind: "look",
  coupon,
  face: "front",
  when: { date },
  rustedPercent: 0,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
});
const shown = (record: ReturnType<typeof recordOf>, today: string) => {
  const due = dueLooks(record, today);
  const line = (one: (typeof due.today)[number]) => `${one.coupons.join(" ")}: ${one.reason}`;
  return {
    overdue: due.overdue.map(line),
    today: due.today.map(line),
    thisWeek: due.thisWeek.map(line),
    later: due.later.map(line),
  };
};

describe("looks that are due", () => {
  const allOut = out("2026-05-01", "1", "2", "3", "4");

  test("nothing is put out: nothing is due", () => {
    expect(shown(recordOf(), "2026-05-02")).toEqual({ overdue: [], today: [], thisWeek: [], later: [] });
  });

  test("the day after: the first of four today, the next two this week", () => {
    expect(shown(recordOf(allOut), "2026-05-02")).toEqual({
      overdue: [],
      today: ["1 2 3 4: look 1 of 4, planned for 2026-05-02"],
      thisWeek: ["1 2 3 4: look 2 of 4, planned for 2026-05-05", "1 2 3 4: look 3 of 4, planned for 2026-05-08"],
      later: ["1 2 3 4: look 4 of 4, planned for 2026-05-15"],
    });
  });

  test("of a trial from a table nothing is due: its days are those on which somebody looked", () => {
    const record = recordOf(allOut);
    const ofTable = { ...record, plan: { ...record.plan, allocation: { how: "assumed" as const } } };
    expect(shown(ofTable, "2026-05-02")).toEqual({ overdue: [], today: [], thisWeek: [], later: [] });
  });

  test("a missed look is overdue until the next is due", () => {
    expect(shown(recordOf(allOut), "2026-05-04").overdue).toEqual(["1 2 3 4: look 1 of 4, planned for 2026-05-02"]);
    expect(shown(recordOf(allOut), "2026-05-05")).toMatchObject({
      overdue: [],
      today: ["1 2 3 4: look 2 of 4, planned for 2026-05-05"],
    });
    expect(shown(recordOf(allOut), "2026-06-30")).toMatchObject({
      overdue: ["1 2 3 4: look 4 of 4, planned for 2026-05-15"],
      later: [],
    });
  });

  test("only who was not looked at yet; a day early counts for the planned day", () => {
    const record = recordOf(allOut, look("1", "2026-05-02"), look("3", "2026-05-02"), look("1", "2026-05-04"));
    expect(shown(record, "2026-05-05").today).toEqual(["2 3 4: look 2 of 4, planned for 2026-05-05"]);
  });

  test("a coupon taken down needs no look; one put out later has its own days", () => {
    const record = recordOf(out("2026-05-01", "1", "2"), out("2026-05-04", "3"), {
      kind: "taken down",
      coupon: "2",
      when: { date: "2026-05-04" },
      reason: "lost",
      note: "",
    });
    expect(shown(record, "2026-05-05").today).toEqual([
      "3: look 1 of 4, planned for 2026-05-05",
      "1: look 2 of 4, planned for 2026-05-05",
    ]);
  });

  test("a closed trial wants no look", () => {
    expect(shown(recordOf(allOut, { kind: "unblinding" }), "2026-05-02")).toEqual({
      overdue: [],
      today: [],
      thisWeek: [],
      later: [],
    });
  });
});
