import { describe, expect, test } from "vitest";
import { requireAcceptable } from "./observation-rules.ts";
import { placesAfter } from "./places-after.ts";
import { plainTablesOf } from "./plain-tables-of.ts";
import { sparesFor } from "./stand-ins.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, type ObservationBody, type Plan, trialRecord } from "./trial-record.ts";

const place = (coupon: string, treatment: string, column: number | null): Plan["places"][number] => ({
  coupon,
  treatment,
  block: column === null ? null : "1",
  rack: column === null ? null : { row: 1, column },
  spare: column === null,
});
/** Coupons 1 and 3 are oiled, 2 and 4 waxed; spares 5 and 7 are waxed, 6 is oiled. */
const plan: Plan = {
  question: "",
  questions: [{ response: "time to first rust", family: "pairs", margin: null, atDay: null }],
  treatments: ["oil", "wax"].map((name) => ({ name, role: "finish", route: [{ name, treated: "alone" }] })),
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7],
  places: [
    ...["1", "2", "3", "4"].map((coupon, at) => place(coupon, at % 2 === 0 ? "oil" : "wax", at + 1)),
    ...["5", "6", "7"].map((coupon, at) => place(coupon, at % 2 === 0 ? "wax" : "oil", null)),
  ],
  allocation: { how: "drawn", seed: 1 },
  invented: true,
};

const said = (body: ObservationBody, at: number, corrects: Observation["corrects"] = null): Observation => ({
  id: `o${at}`,
  recordedAt: "2026-05-01T08:00:00Z",
  by: "Ada",
  corrects,
  body,
});
const trialOf = (bodies: readonly ObservationBody[]) => ({
  id: "t",
  name: "shed",
  observations: [{ kind: "plan", plan } as const, ...bodies].map((body, at) => said(body, at)),
});
const recordOf = (...bodies: ObservationBody[]) => trialRecord({ id: "t", name: "shed" }, trialOf(bodies).observations);
const add = (bodies: readonly ObservationBody[], added: ObservationBody) =>
  requireAcceptable(trialOf(bodies), said(added, 99));

const standIn = (spare: string, lost: string): ObservationBody => ({ kind: "stand-in", spare, for: lost, why: "fell" });
const lost = (coupon: string, date = "2026-05-02"): ObservationBody => ({
  kind: "taken down",
  coupon,
  when: { date },
  reason: "lost",
  note: "",
});
const putOut = (...coupons: string[]): ObservationBody => ({
  kind: "put out",
  site: "roof",
  date: "2026-05-02",
  coupons,
});
const look = (coupon: string, rustedPercent: number): ObservationBody => ({
  kind: "look",
  coupon,
  face: "front",
  when: { date: "2026-05-09" },
  rustedPercent,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
});

describe("a spare takes over", () => {
  test("block and place on the rack, and the lost one keeps none", () => {
    const { places } = recordOf(lost("2"), standIn("5", "2")).plan;
    expect(places.find((one) => one.coupon === "5")).toEqual({ ...place("2", "wax", 2), coupon: "5" });
    expect(places.find((one) => one.coupon === "2")).toEqual(place("2", "wax", null));
    expect(places.map((one) => one.coupon)).toEqual(plan.places.map((one) => one.coupon));
  });

  test("the plan as it was drawn stays to be read", () =>
    expect(recordOf(standIn("5", "2")).plans.at(-1)?.body.plan).toEqual(plan));

  test("it keeps its own batch, and takes what the lost one was kept for", () => {
    const batches = plan.places.map((one) => ({ ...one, batch: one.coupon }));
    const tested = batches.map((one) =>
      one.coupon === "2" ? { ...one, rack: null, keptFor: "tape test" as const } : one,
    );
    const after = placesAfter(tested, [{ spare: "5", for: "2" }]);
    expect(after[4]).toMatchObject({ coupon: "5", batch: "5", keptFor: "tape test", spare: false });
    expect(after[1]).toEqual({ ...batches[1], block: null, rack: null, spare: true });
  });

  test.each([
    ["as it happened", [standIn("5", "2"), standIn("7", "5")]],
    ["the first corrected later, so written down last", [standIn("7", "5"), standIn("5", "2")]],
  ])("a spare that is lost too leaves its place to the next: %s", (_, bodies) => {
    const { places } = recordOf(...bodies).plan;
    expect(places.find((one) => one.rack?.column === 2)?.coupon).toBe("7");
    expect(places.filter((one) => one.spare).map((one) => one.coupon)).toEqual(["2", "5", "6"]);
  });

  test("the finding compares the spare in the block of the lost one", () => {
    const out = ["1", "3", "4", "5"];
    const record = recordOf(lost("2"), standIn("5", "2"), putOut(...out), ...out.map((one) => look(one, 0)));
    const [question] = trialQuestions(record);
    expect(question?.coupons.map(({ coupon, treatment, block }) => [coupon, treatment, block])).toEqual([
      ["1", "oil", "1"],
      ["3", "oil", "1"],
      ["4", "wax", "1"],
      ["5", "wax", "1"],
    ]);
    const [table] = plainTablesOf(record).tables;
    expect(table?.rows.map((row) => row[0])).toEqual(out);
  });

  test.each(["lost", "state"] as const)("a coupon that never went out (%s) is no rusted one", (reason) => {
    const spoiled: ObservationBody = {
      kind: "taken down",
      coupon: "2",
      when: { date: "2026-05-01" },
      reason,
      note: "",
    };
    const record = recordOf(spoiled, putOut("1", "3", "4"), ...["1", "3", "4"].map((one) => look(one, 0)));
    expect(trialQuestions(record)[0]?.coupons.map((one) => one.coupon)).toEqual(["1", "3", "4"]);
  });
});

describe("which spare is offered", () => {
  test.each([
    ["of the same treatment", [], "2", ["5", "7"]],
    ["not one that is used", [standIn("5", "4")], "2", ["7"]],
    ["not one that is lost itself", [lost("7")], "2", ["5"]],
    ["not one that hangs outdoors", [putOut("5")], "2", ["7"]],
    ["for a spare that took over", [standIn("5", "2")], "5", ["7"]],
    ["none for a coupon that was replaced", [standIn("5", "2")], "2", []],
    ["none for a spare without a place", [], "5", []],
    ["none for a coupon that hangs outdoors", [putOut("2")], "2", []],
    ["on the day it went out", [putOut("2"), lost("2")], "2", ["5", "7"]],
    ["none a day later", [putOut("2"), lost("2", "2026-05-03")], "2", []],
  ])("%s", (_, bodies, coupon, spares) => expect(sparesFor(recordOf(...bodies), coupon)).toEqual(spares));

  test("coated in the same batch first", () => {
    const batched = { ...plan, places: plan.places.map((one) => ({ ...one, batch: one.coupon === "5" ? "1" : "2" })) };
    const record = trialRecord({ id: "t", name: "shed" }, [said({ kind: "plan", plan: batched }, 0)]);
    expect(sparesFor(record, "2")).toEqual(["7", "5"]);
  });
});

describe("what may be written down about it", () => {
  test.each([
    ["a spare, before anything went out", [], standIn("5", "2")],
    ["after it was lost", [lost("2")], standIn("5", "2")],
    ["lost on the day it went out", [putOut("2"), lost("2")], standIn("5", "2")],
    ["then the spare goes out", [lost("2"), standIn("5", "2"), putOut("1")], putOut("5")],
  ])("%s", (_, bodies, added) => expect(() => add(bodies, added)).not.toThrow());

  test.each([
    ["another treatment", [], standIn("6", "2"), /^spare is "6"; expected a spare of the same treatment as coupon 2$/],
    ["no spare", [], standIn("4", "2"), /^spare is "4"; expected the number of a spare/],
    ["no such coupon", [], standIn("5", "9"), /^for is "9"; expected the number of a coupon/],
    ["a used spare", [standIn("5", "4")], standIn("5", "2"), /^spare is "5"; .* not taken another place yet/],
    ["a place taken already", [standIn("5", "2")], standIn("7", "2"), /^for is "2"; .* no spare has taken yet/],
    ["a spare without a place", [], standIn("5", "7"), /^for is "7"; expected a coupon with a place/],
    [
      "while it hangs outdoors",
      [putOut("2")],
      standIn("5", "2"),
      /^for is "2"; expected a coupon lost before it went out/,
    ],
    [
      "lost later",
      [putOut("2"), lost("2", "2026-05-03")],
      standIn("5", "2"),
      /^for is "2"; expected a coupon lost before/,
    ],
    ["looked at", [putOut("2"), look("2", 0), lost("2")], standIn("5", "2"), /^for is "2"; .* nobody has looked at/],
    ["the replaced one out", [standIn("5", "2")], putOut("2"), /^coupons\[0\] is "2"; .* coupon 5 took it over/],
    [
      "a look at the replaced one",
      [putOut("2"), lost("2"), standIn("5", "2")],
      look("2", 0),
      /^coupon is "2"; .* 5 took it/,
    ],
  ])("refused: %s", (_, bodies, added, message) => expect(() => add(bodies, added)).toThrow(message));

  test("the lost one was out longer, it is said later: the stand-in would hang in the air", () => {
    const trial = trialOf([putOut("2"), lost("2"), standIn("5", "2")]);
    const later = said(lost("2", "2026-05-20"), 99, { id: "o2", why: "wrong day" });
    expect(() => requireAcceptable(trial, later)).toThrow(/^when\.date is "2026-05-20"; .* stand-in by Ada/);
  });

  test("a correction may not hand a place round in a ring", () => {
    const trial = trialOf([standIn("5", "2"), standIn("7", "5")]);
    const ring = said(standIn("5", "7"), 99, { id: "o1", why: "?" });
    expect(() => requireAcceptable(trial, ring)).toThrow(
      /^spare is "5"; expected a spare whose place coupon 7 had not$/,
    );
  });
});
