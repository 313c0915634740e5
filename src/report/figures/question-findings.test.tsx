import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { type AnsweredQuestion, type Finding, type Verdict, verdicts } from "../../core/trial/finding.ts";
import { QuestionFindings } from "./question-findings.tsx";
import { VerdictShape } from "./verdict-mark.tsx";

const finding = (first: string, verdict: Verdict): Finding => ({
  first,
  second: "oil",
  n: [2, 2],
  effect: { name: "time ratio", value: 2, lower: 1.1, upper: null, confidence: 0.95 },
  p: 0.02,
  pAdjusted: 0.04,
  pAdjustedIsLowerBound: false,
  pMin: 0.01,
  method: "exact rearrangement test",
  margin: 1.5,
  equivalence: null,
  verdict,
  sentence: `About ${first}: ${verdict}.`,
  because: ["two of wax fell into the sand"],
  wouldTell: [{ power: 0.8, perTreatment: 6 }],
});
const answer = (findings: Finding[]): AnsweredQuestion => ({
  response: "time to first rust",
  kind: "time",
  family: "control",
  control: "oil",
  units: {},
  overall: null,
  findings,
  confounded: [{ circumstance: "rack row", treatments: ["wax", "oil"], how: "partly" }],
  notes: ["Intervals are for one comparison alone."],
  points: ["oil", "wax"].flatMap((treatment, at) => [
    { coupon: `${at}1`, treatment, block: null, datum: { left: 7, right: 14 }, deviation: null },
    { coupon: `${at}2`, treatment, block: null, datum: { left: 84, right: null }, deviation: "dropped" },
  ]),
  witnesses: [],
  unit: "days",
});
const drawn = (one: AnsweredQuestion, width = 360) =>
  renderToStaticMarkup(
    <QuestionFindings
      answer={one}
      frame={{ better: "higher", scale: null, declared: true }}
      width={width}
      detailsOpen={true}
      details={null}
    />,
  );

describe("a question's findings on paper", () => {
  test.each(verdicts)("%s: its word and its sentence stand there", (verdict) => {
    const page = drawn(answer([finding("wax", verdict)]));
    expect(page).toContain(`${verdict}</span>`);
    expect(page).toContain(`About wax: ${verdict}.`);
  });

  test("no two verdicts share a shape", () => {
    const shapes = verdicts.map((verdict) => renderToStaticMarkup(<VerdictShape verdict={verdict} />));
    expect(new Set(shapes).size).toBe(verdicts.length);
  });

  test("every coupon is numbered, one touched by a deviation starred and said", () => {
    const page = drawn(answer([finding("wax", "shown")]));
    for (const coupon of ["01", "02*", "11", "12*"]) expect(page).toContain(`>${coupon}</text>`);
    expect(page).toContain("12: not yet at 84 days (dropped)");
  });

  test("on a narrow phone it stays said that bare witnesses are not compared", () => {
    const bare = { coupon: "21", treatment: "bare steel", block: null, datum: { left: 0, right: 1 }, deviation: null };
    const one = answer([finding("wax", "shown")]);
    const page = drawn({ ...one, points: [...one.points, bare], witnesses: ["bare steel"] }, 288);
    for (const line of ["bare steel, bare witnesses (not", "compared)"]) expect(page).toContain(`>${line}</text>`);
  });

  test("what it rests on, what it could be confused with, what stays open and what would settle it", () => {
    const page = drawn(answer([finding("wax", "suggested")]));
    for (const said of ["two of wax fell into the sand", "rack row", "no upper limit", "6 of each"])
      expect(page).toContain(said);
  });

  test("without a comparison it says so and still says what was assumed", () => {
    const page = drawn({ ...answer([]), points: [] });
    expect(page).toContain("No comparison can be made yet.");
    expect(page).toContain("Intervals are for one comparison alone.");
  });
});
