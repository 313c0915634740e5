import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blankCorrectedMassLoss, cleaningSeries } from "./cleaning-loss.ts";
import { corrosionRateFromMassLoss } from "./corrosion-rate.ts";
import { couponArea } from "./coupon-area.ts";

/** 0.25 g from 60 cm² of steel in 90 days. */
const steel = { massLossG: 0.25, areaCm2: 60, hours: 2160, densityGCm3: 7.86 };

describe("corrosion rate", () => {
  test.each([
    ["umPerYear", 21.49892, 1e-4, "ASTM G1, K 8.76e7 (published)"],
    ["mmPerYear", 0.02149892, 1e-7, "K 8.76e4 (published)"],
    ["milPerYear", 0.846414, 1e-5, "exact, not the rounded K 3.45e6"],
    ["inchPerYear", 0.000846414, 1e-8, "a thousandth of that"],
    ["gM2Hour", 0.01929012, 1e-7, "0.25 g / 0.006 m² / 2160 h"],
    ["gM2Year", 168.9815, 1e-3, "8760 h of that"],
    ["mgDm2Day", 4.62963, 1e-5, "250 mg / 0.6 dm² / 90 d"],
    ["ugM2Second", 5.358368, 1e-5, "computed"],
    ["pmPerSecond", 0.6817262, 1e-6, "21.49892 µm over 31 536 000 s"],
  ] as const)("in %s: %d (%s %s)", (unit, rate, slack, _source) => {
    expect(Math.abs(corrosionRateFromMassLoss({ ...steel, unit }) - rate)).toBeLessThan(slack);
  });

  test("twice the loss is twice the rate, twice the time half", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 5, noNaN: true }), (massLossG) => {
        const of = (changed: object) =>
          corrosionRateFromMassLoss({ ...steel, massLossG, unit: "umPerYear", ...changed });
        expect(of({ massLossG: 2 * massLossG })).toBeCloseTo(2 * of({}), 6);
        expect(of({ hours: 2 * steel.hours })).toBeCloseTo(of({}) / 2, 6);
      }),
    );
  });

  test.each([
    ["massLossG", { massLossG: -0.1 }],
    ["areaCm2", { areaCm2: 0 }],
    ["hours", { hours: 0 }],
    ["densityGCm3", { densityGCm3: Number.NaN }],
    ["unit", { unit: "furlongPerYear" as "umPerYear" }],
  ])("%s is refused by name", (argument, changed) => {
    expect(() => corrosionRateFromMassLoss({ ...steel, unit: "umPerYear", ...changed })).toThrow(
      new RegExp(`^${argument} is`),
    );
  });
});

describe("coupon area", () => {
  test("100 x 50 x 1.5 mm with a 5 mm hole", () => {
    const plate = { lengthMm: 100, widthMm: 50, thicknessMm: 1.5 };
    expect(couponArea({ ...plate, holeDiameterMm: 0 })).toBe(10450);
    // less two circles of 19.635 mm², plus the bore of 23.562 mm²
    expect(couponArea({ ...plate, holeDiameterMm: 5 })).toBeCloseTo(10434.292, 3);
  });

  test("a hole as wide as the coupon is refused", () => {
    expect(() => couponArea({ lengthMm: 40, widthMm: 20, thicknessMm: 2, holeDiameterMm: 20 })).toThrow(
      /^holeDiameterMm is 20/,
    );
  });
});

describe("loss by cleaning", () => {
  test("the flat leg 146, 148, 150, 152 rises 2 mg a cycle from 140 mg; the steep one of 120 meets it at 142.37 mg", () => {
    const series = cleaningSeries({ cumulativeMassLossMg: [120, 141, 146, 148, 150, 152], flatFromCycle: 3 });
    expect(series.slopeMgPerCycle).toBeCloseTo(2, 12);
    expect(series.interceptMg).toBeCloseTo(140, 12);
    expect(series.intersectionMg).toBeCloseTo(120 * (140 / 118), 10);
  });

  test.each([
    ["flatFromCycle", { cumulativeMassLossMg: [120, 141], flatFromCycle: 2 }],
    ["flatFromCycle", { cumulativeMassLossMg: [120, 141, 146], flatFromCycle: 6 }],
    ["cumulativeMassLossMg[2]", { cumulativeMassLossMg: [120, 141, 139], flatFromCycle: 2 }],
    ["cumulativeMassLossMg", { cumulativeMassLossMg: [10, 20, 30], flatFromCycle: 1 }],
  ])("%s is refused by name", (argument, series) => {
    expect(() => cleaningSeries(series)).toThrow(`${argument} is`);
  });

  test("blanks are taken off by their mean, and there must be some", () => {
    expect(blankCorrectedMassLoss({ massLossMg: 152.4, blankLossesMg: [3.1, 3.5] })).toBeCloseTo(149.1, 12);
    expect(() => blankCorrectedMassLoss({ massLossMg: 1, blankLossesMg: [] })).toThrow(/^blankLossesMg is/);
  });
});
