import { describe, expect, test } from "vitest";
import { lost, putOut, smallPlan, smallRecord } from "../../tests/small-trial.ts";
import { type Observation, type ObservationBody, trialRecord } from "../core/trial/trial-record.ts";
import { lookCalendar } from "./look-calendar.ts";

const stampedAt = new Date("2026-02-27T10:00:00Z");
const calendarOf = (bodies: Parameters<typeof smallRecord>[0], from: string | null = null, plan = smallPlan) =>
  lookCalendar(smallRecord(bodies, plan), from, stampedAt);

/** Content lines as RFC 5545 has them: unfolded, name and value apart; each event's own, its alarm's left out. */
function eventsIn(file: string): Record<string, string>[] {
  const lines = file.replaceAll("\r\n ", "").split("\r\n");
  const events: Record<string, string>[] = [];
  let within: string[] = [];
  for (const line of lines) {
    const [, name, value] = line.match(/^([^:]+):(.*)$/) ?? [];
    if (name === undefined || value === undefined) continue;
    if (name === "BEGIN") {
      within = [...within, value];
      if (value === "VEVENT") events.push({});
    } else if (name === "END") within = within.slice(0, -1);
    else if (within.at(-1) === "VEVENT") events.at(-1)![name] = value;
  }
  return events;
}
const unescaped = (text: string) => text.replace(/\\([\\;,n])/g, (_, sign) => (sign === "n" ? "\n" : sign));

describe("the calendar of looks", () => {
  test("whole days, from the date the coupons went out, and never a treatment", () => {
    const file = calendarOf([putOut]);
    expect(eventsIn(file).map((event) => [event["DTSTART;VALUE=DATE"], event.SUMMARY])).toEqual([
      ["20260302", "Look 1 of 3: shed trial"],
      ["20260303", "Look 2 of 3: shed trial"],
      ["20260305", "Look 3 of 3: shed trial"],
    ]);
    expect(unescaped(eventsIn(file)[0]!.DESCRIPTION!)).toBe("Coupons to look at: 1, 2, 3");
    for (const { name } of smallPlan.treatments) expect(file).not.toContain(name);
  });
  test("stamped with the moment that was handed in, and with a reminder in the morning", () => {
    const file = calendarOf([putOut]);
    expect(eventsIn(file).map((event) => event.DTSTAMP)).toEqual(Array(3).fill("20260227T100000Z"));
    expect(file.match(/BEGIN:VALARM/g)).toHaveLength(3);
    expect(file).toMatch(/TRIGGER;RELATED=START:PT8H/);
    expect(lookCalendar(smallRecord([putOut]), null, stampedAt)).toBe(file);
  });
  test("lines end in CRLF, are folded at 75 bytes, and commas and semicolons of a name are escaped", () => {
    const name = "Öl, Wachs; oder Grundierung? Was hält im ungeheizten Schuppen hinter dem Haus am längsten";
    const record = trialRecord({ id: "t", name }, smallObservations());
    const file = lookCalendar(record, "2026-03-01", stampedAt);
    expect(file.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    for (const line of file.split("\r\n")) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(eventsIn(file)[0]!.SUMMARY).toContain("Öl\\, Wachs\\; oder");
    expect(unescaped(eventsIn(file)[0]!.SUMMARY!)).toBe(`Look 1 of 3: ${name}`);
  });
  test("a name that brings lines of its own adds none", () => {
    const wicked = { ...smallRecord([putOut]), name: "shed\r\nX-EVIL:1\nBEGIN:VALARM" };
    const lines = lookCalendar(wicked, null, stampedAt)
      .replaceAll("\r\n ", "")
      .split(/\r\n|\r|\n/);
    expect(lines.filter((line) => line.startsWith("X-EVIL"))).toEqual([]);
    expect(lines.filter((line) => line === "BEGIN:VALARM")).toHaveLength(3);
    expect(lines).toContain("SUMMARY:Look 1 of 3: shed X-EVIL:1 BEGIN:VALARM");
  });
  test("a look that moves keeps its identity, and its sequence rises: a new import replaces it", () => {
    const before = eventsIn(calendarOf([putOut]));
    const after = eventsIn(calendarOf([putOut, lost], null, { ...smallPlan, lookDays: [1, 3, 4] }));
    expect(after.map((event) => event.UID)).toEqual(before.map((event) => event.UID));
    expect(new Set(after.map((event) => event.UID)).size).toBe(3);
    expect(after[1]!["DTSTART;VALUE=DATE"]).toBe("20260304");
    expect(Number(after[1]!.SEQUENCE)).toBeGreaterThan(Number(before[1]!.SEQUENCE));
    expect(unescaped(after[1]!.DESCRIPTION!)).toBe("Coupons to look at: 1, 3");
  });
  test("a look that is no longer planned comes as cancelled, without a reminder, so that the calendar loses it", () => {
    const [plan, out] = smallObservations([putOut]);
    const shorter = { ...smallPlan, lookDays: smallPlan.lookDays.slice(0, 2) };
    const corrected: Observation = {
      ...plan!,
      id: "corrected",
      corrects: { id: plan!.id, why: "the third look is not needed" },
      body: { kind: "plan", plan: shorter },
    };
    const record = trialRecord({ id: smallRecord().id, name: "shed trial" }, [plan!, out!, corrected]);
    const file = lookCalendar(record, null, stampedAt);
    const before = eventsIn(calendarOf([putOut]));
    const after = eventsIn(file);
    expect(after.map((event) => event.UID)).toEqual(before.map((event) => event.UID));
    expect(after.map((event) => event.STATUS)).toEqual([undefined, undefined, "CANCELLED"]);
    expect(Number(after[2]!.SEQUENCE)).toBeGreaterThan(Number(before[2]!.SEQUENCE));
    expect(file.match(/BEGIN:VALARM/g)).toHaveLength(2);
  });
  test("before coupons are out a date is asked for; spares wait for none", () => {
    expect(() => calendarOf([])).toThrow(/^from is null; expected the date on which the coupons go out/);
    expect(eventsIn(calendarOf([], "2026-05-30")).map((event) => event["DTSTART;VALUE=DATE"])).toEqual([
      "20260531",
      "20260601",
      "20260603",
    ]);
  });
  test("coupons that went out on two dates have their looks apart", () => {
    const late = { ...putOut, date: "2026-03-10", coupons: ["3"] };
    const events = eventsIn(calendarOf([{ ...putOut, coupons: ["1", "2"] }, late]));
    expect(events).toHaveLength(6);
    expect(new Set(events.map((event) => event.UID)).size).toBe(6);
    expect(unescaped(events.at(-1)!.DESCRIPTION!)).toBe("Coupons to look at: 3");
  });
});

function smallObservations(bodies: readonly ObservationBody[] = []): Observation[] {
  return [{ kind: "plan", plan: smallPlan } as const, ...bodies].map((body, at) => ({
    id: String(at + 1),
    recordedAt: "2026-03-01T08:00:00Z",
    by: "A",
    corrects: null,
    body,
  }));
}
