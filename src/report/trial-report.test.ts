import { describe, expect, test } from "vitest";
import { between, smallQuestion } from "../../tests/small-question.ts";
import { answerDetails } from "../core/trial/answer-details.ts";
import { answerQuestion } from "../core/trial/answer-question.ts";
import type { Observation, ObservationBody, Plan } from "../core/trial/trial-record.ts";
import { trialRecord } from "../core/trial/trial-record.ts";
import { siPreferences } from "../core/units.ts";
import { trialReportHtml } from "./trial-report.tsx";

const plan: Plan = {
  question: "Does wax beat oil?",
  questions: [],
  treatments: [
    { name: "A", role: "finish", route: [{ name: "wax", treated: "alone" }] },
    { name: "control", role: "control", route: [] },
  ],
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 7],
  places: [
    { coupon: "1", treatment: "A", block: null, rack: null, spare: false },
    { coupon: "2", treatment: "control", block: null, rack: null, spare: false },
  ],
  allocation: { how: "drawn", seed: 3 },
  invented: true,
};

function reportOf(bodies: ObservationBody[], name = "Shed") {
  const observations: Observation[] = [{ kind: "plan" as const, plan }, ...bodies].map((body, at) => ({
    id: String(at),
    recordedAt: "2026-05-01T09:00:00Z",
    by: "me",
    corrects: null,
    body,
  }));
  const question = smallQuestion({ A: [between(7, 14), between(7, 14)], control: [between(0, 1), between(0, 1)] });
  const answer = answerQuestion(question);
  return trialReportHtml({
    record: trialRecord({ id: "t", name }, observations),
    answered: [{ answer, frame: question, details: answerDetails(question, answer.findings) }],
    measured: [],
    pictures: {},
    preferences: { ...siPreferences, temp: "°F" },
    outdoors: [
      {
        strip: {
          site: "shed",
          start: "2026-05-01",
          endsBefore: "2026-05-09",
          days: 7,
          looks: [],
          firstRust: [],
          nowDay: null,
        },
        climate: {
          days: [{ day: 0, hours: 24, wetHours: 9, dewHours: 0.5, unknownHours: 6 }],
          dewNights: [{ day: 0, hours: 24, wetHours: 9, dewHours: 0.5, unknownHours: 6 }],
          whole: { hours: 24, wetHours: 9, dewHours: 0.5, dewNights: 1, unknownHours: 6 },
        },
      },
    ],
    printedOn: "2026-05-01",
    styles: ["body{color:black}"],
  });
}

const oiled: ObservationBody = {
  kind: "application",
  step: "oil",
  coupons: ["2"],
  startedAt: "2026-05-01T08:00:00Z",
  endedAt: "2026-05-01T08:05:00Z",
  tempC: 20,
  note: "",
};

describe("the printed report", () => {
  test("holds question, plan, what happened, findings, method and cautions, and says that data are invented", () => {
    const html = reportOf([oiled]);
    const air = "Wet for 9 of 24 hours; dew on the steel for 0.5 hours in 1 night; 6 hours unknown.";
    for (const said of [
      "Does wax beat oil?",
      "seed 3",
      "68 °F",
      air,
      "Findings",
      "Method",
      "Cautions",
      "Invented data",
    ])
      expect(html).toContain(said);
  });

  test("stands alone: nothing is fetched and nothing runs", () => {
    const html = reportOf([oiled]);
    expect(html).not.toMatch(/<script|<link(?![^>]*href="data:)|src="(?!data:)|url\((?!#)/);
    expect(html).toContain("body{color:black}");
  });

  test("a name is text, whatever stands in it", () => {
    const html = reportOf(
      [{ kind: "deviation", coupons: ["1"], step: null, what: '<img src=x onerror="alert(1)">', paperworkOnly: false }],
      "<script>alert(1)</script>",
    );
    expect(html).not.toContain("<script>");
    expect(html).not.toContain("<img src=x");
  });

  test("a trial that is still blind warns whoever inspects it", () => {
    expect(reportOf([])).toContain("not closed");
    expect(reportOf([{ kind: "unblinding" }])).not.toContain("not closed");
  });
});
