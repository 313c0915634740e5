import { describe, expect, test } from "vitest";
import { between, smallQuestion } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import { shareExplained, squaredCorrelation } from "./confounding-audit.ts";

describe("share explained", () => {
  test.each<[string, string[], string[], number]>([
    ["apart: 1", ["x", "x"], ["y", "y"], 1],
    ["alike: 0", ["x", "y"], ["x", "y"], 0],
    ["by hand: 1 - (2 x 1 / 3) / (2 x 2 / 4) = 1/3", ["x", "x"], ["x", "y"], 1 / 3],
    ["unequal groups alike", ["x", "y"], ["x", "x", "y", "y"], 0],
  ])("%s", (_, first, second, share) => expect(shareExplained(first, second)).toBeCloseTo(share, 12));

  test("two levels and as many numbers are the same thing", () => {
    const [first, second] = [
      [1, 1, 0, 1],
      [0, 0, 1],
    ];
    const names = (numbers: number[]) => numbers.map(String);
    expect(squaredCorrelation(first, second)).toBeCloseTo(shareExplained(names(first), names(second)), 12);
  });
});

describe("numbers as circumstances", () => {
  const audited = (name: string, ofFinish: (number | null)[], ofControl: (number | null)[]) => {
    const coupons = (numbers: (number | null)[], left: number) =>
      numbers.map((value, at) => between(left + 7 * at, left + 7 * at + 7, { circumstances: { [name]: value } }));
    return answerQuestion(smallQuestion({ A: coupons(ofFinish, 35), control: coupons(ofControl, 0) })).confounded.map(
      ({ how }) => how,
    );
  };

  test.each<[string, string, (number | null)[], (number | null)[], string[]]>([
    ["rows that do not overlap and hardly vary", "row", [1, 1, 1, 1], [5, 5, 5, 5], ["fully"]],
    ["rows that lean one way", "row", [1, 2, 1, 3], [3, 4, 5, 5], ["heavily"]],
    ["rows alike", "row", [1, 2, 3, 4], [1, 2, 3, 4], []],
    ["a bath 0.3 K warmer is harmless", "bath mean temperature", [90.3, 90.3, 90.3, 90.3], [90, 90, 90, 90], []],
    ["a bath 3 K warmer is not", "bath mean temperature", [93, 93, 93, 93], [90, 90, 90, 90], ["fully"]],
    ["recorded on one side only: that is a level of its own", "row", [1, 2, 3, 4], [null, null, null, null], ["fully"]],
  ])("%s", (_, name, ofFinish, ofControl, how) => expect(audited(name, ofFinish, ofControl)).toEqual(how));
});

describe("steps that both routes have", () => {
  const dipped = (oil: string[], left: number) =>
    oil.map((dip, at) =>
      between(left, left + 7, { applications: { phosphate: left > 7 ? `run ${at}` : null, oil: dip } }),
    );
  const routes = { A: ["phosphate", "oil"], control: ["oil"] };
  const confounded = (ofFinish: string[], ofControl: string[]) =>
    answerQuestion(
      smallQuestion(
        { A: dipped(ofFinish, 35), control: dipped(ofControl, 0) },
        { routes, treatedSeparately: "recorded" },
      ),
    );

  test("one oil dip for the finish and another for the control: nothing about the finish can be told", () => {
    const answer = confounded(["1", "1", "1", "1"], ["2", "2", "2", "2"]);
    expect(answer.confounded).toEqual([{ circumstance: "oil", treatments: ["A", "control"], how: "fully" }]);
    expect(answer.findings[0]).toMatchObject({ n: [4, 4], verdict: "cannot be told", wouldTell: null });
    expect(answer.findings[0]!.sentence).toContain("Another layout would tell, not more coupons");
  });

  test("one oil dip for all, or both in each of two: nothing is confounded", () => {
    expect(confounded(["1", "1", "1", "1"], ["1", "1", "1", "1"]).confounded).toEqual([]);
    expect(confounded(["1", "1", "2", "2"], ["1", "1", "2", "2"]).confounded).toEqual([]);
  });
});

describe("units of several coupons", () => {
  const hung = (edges: string[], left: number, run: (at: number) => string | null) =>
    edges.map((edge, at) =>
      between(left + at, left + at + 7, { circumstances: { edge }, applications: { phosphate: run(at) } }),
    );
  const edgesOf = (ofFinish: string[], ofControl: string[]) =>
    answerQuestion(
      smallQuestion(
        { A: hung(ofFinish, 35, (at) => `run ${Math.floor(at / 2)}`), control: hung(ofControl, 0, () => null) },
        { routes: { A: ["phosphate"], control: [] }, treatedSeparately: "recorded" },
      ),
    ).confounded;
  const alternating = ["edge", "inner", "edge", "inner", "edge", "inner"];

  test("runs with a coupon at the edge and one inside are not parted from single coupons by it", () =>
    expect(edgesOf(alternating, alternating)).toEqual([]));

  test("runs of edge coupons only, against inner ones, are", () =>
    expect(edgesOf(Array(6).fill("edge"), Array(6).fill("inner"))).toEqual([
      { circumstance: "edge", treatments: ["A", "control"], how: "fully" },
    ]));
});
