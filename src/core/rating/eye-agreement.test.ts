import { describe, expect, test } from "vitest";
import { eyeAgreement } from "./eye-agreement.ts";
import { eyeSentences } from "./eye-sentences.ts";
import { platePercent, plateSeries } from "./rust-plate.ts";

const truths = plateSeries(3).map(platePercent);
const asPercents = (read: (truePercent: number, at: number) => number) => ({
  way: "percent" as const,
  readings: truths.map((truePercent, at) => ({ truePercent, read: read(truePercent, at) })),
});
/** Turns about 1 by a tenth, so that the scatter is not nothing. */
const jitter = (at: number) => (at % 2 === 0 ? 1.1 : 1 / 1.1);

describe("an inspector against plates of known area", () => {
  test("every plate read as it is: kappa 1, factor 1", () => {
    const { sameGrade, kappa, all } = eyeAgreement(asPercents((one) => one));
    expect(sameGrade).toBe(20);
    expect(kappa?.kappa).toBeCloseTo(1, 12);
    expect(all).toMatchObject({ lean: 1, lowest: 1, highest: 1 });
  });

  test("1.6 times too high on small areas only is said so", () => {
    const agreement = eyeAgreement(asPercents((one, at) => (one <= 1 ? one * 1.6 : one) * (one > 50 ? 1 : jitter(at))));
    const said = eyeSentences("You", "percent", agreement);
    expect(said[0]).toMatch(
      /^You read 1\.[567] times too high on small areas \(up to 1 %\); likely 1\.[456] to 1\.[678] times\.$/,
    );
    expect(said[1]).toMatch(/^No lean is seen on large areas/);
    expect(said[2]).toMatch(/19 in 20/);
  });

  test("half of what is there is twice too low", () => {
    const said = eyeSentences("Ines", "percent", eyeAgreement(asPercents((one, at) => (one / 2) * jitter(at))));
    expect(said[1]).toMatch(/^Ines read 2\.0 times too low on large areas/);
  });

  test("by hand: read 2 and 8 where 1 and 2 % are true: factors 2 and 4, in the middle √8", () => {
    const { all } = eyeAgreement({
      way: "percent",
      readings: [
        { truePercent: 1, read: 2 },
        { truePercent: 2, read: 8 },
      ],
    });
    expect(all?.lean).toBeCloseTo(Math.sqrt(8), 12);
  });

  test("four readings far apart are too few to tell a lean, and no spread is made of them", () => {
    const readings = [
      { truePercent: 0.3, read: 0 },
      { truePercent: 0.5, read: 4 },
      { truePercent: 3, read: 0.1 },
      { truePercent: 20, read: 90 },
    ];
    const said = eyeSentences("You", "percent", eyeAgreement({ way: "percent", readings }));
    expect(said.slice(0, 2)).toEqual([
      "2 plates are too few to tell a lean on small areas (up to 1 %).",
      "2 plates are too few to tell a lean on large areas (above 1 %).",
    ]);
    expect(said.join(" ")).not.toMatch(/times|19 in 20/);
    expect(said.join(" ")).toMatch(/on 0 of 4 plates/);
  });

  test("a plate read as clean counts as 0.005 %", () => {
    const readings = [0.02, 0.02].map((truePercent) => ({ truePercent, read: 0 }));
    expect(eyeAgreement({ way: "percent", readings }).all?.lean).toBeCloseTo(0.25, 12);
  });

  test("grades one too low everywhere: within one on all, none the same, and no logarithm is made of them", () => {
    const readings = [0.02, 0.05, 0.2, 0.5, 2, 5, 20].map((truePercent, at) => ({
      truePercent,
      read: [8, 7, 6, 5, 4, 3, 1][at]!,
    }));
    const agreement = eyeAgreement({ way: "grade", readings });
    expect(agreement).toMatchObject({ sameGrade: 0, withinOneGrade: 7, all: { lean: -1 } });
    expect(eyeSentences("You", "grade", agreement)[0]).toMatch(/^You graded 1\.0 too low \(too rusty\) on small areas/);
  });

  test("nine readings have no kappa, ten have: at full agreement its limits would be ±0 of two already", () => {
    const exact = (plates: number) =>
      eyeAgreement({
        way: "percent",
        readings: truths.slice(0, plates).map((one) => ({ truePercent: one, read: one })),
      });
    expect(exact(9)).toMatchObject({ sameGrade: 9, kappa: null });
    expect(exact(10).kappa?.kappa).toBeCloseTo(1, 12);
  });

  test("all of one grade: chance agreement is complete, so there is no kappa", () => {
    const readings = Array.from({ length: 12 }, (_, at) => ({ truePercent: 0.02 + at / 2000, read: 9 }));
    expect(eyeAgreement({ way: "grade", readings }).kappa).toBeNull();
  });

  test.each([
    ["percent", 101, /readings\[0\]\.read is 101/],
    ["grade", 11, /a D610 grade from 0 to 10/],
    ["grade", 2.5, /a D610 grade from 0 to 10/],
  ] as const)("refuses a %s of %d", (way, read, complaint) =>
    expect(() => eyeAgreement({ way, readings: [{ truePercent: 1, read }] })).toThrow(complaint),
  );
});
