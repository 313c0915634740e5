import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coatingMassBand, coatingMassFromGain } from "./mass-from-gain.ts";
import { coatingMassInGM2 } from "./mass-unit.ts";
import { steelDissolved } from "./steel-dissolved.ts";
import { coatingMassFromThickness, thicknessFromCoatingMass } from "./thickness.ts";
import { weighStripWeigh } from "./weigh-strip-weigh.ts";
import { balanceFitness, weighingUncertainty } from "./weighing-uncertainty.ts";

describe("weighing a coupon of 29.5 cm²", () => {
  const areaCm2 = 29.5;

  test("gain and stripping agree where the bath took the ideal share of steel", () => {
    const steelG = steelDissolved({ coatingMassGM2: 16, areaCm2 }).steelG;
    const coatG = (16 * areaCm2) / 10_000;
    const massBeforeG = 87.4312;
    const massStrippedG = massBeforeG - steelG;
    const massCoatedG = massStrippedG + coatG;
    const stripped = weighStripWeigh({ massBeforeG, massCoatedG, massStrippedG, areaCm2 });
    const gained = coatingMassFromGain({ massBeforeG, massAfterG: massCoatedG, areaCm2 });
    expect(stripped.coatingMassGM2).toBeCloseTo(16, 6);
    expect(stripped.steelDissolvedGM2).toBeCloseTo(3.68, 6);
    expect(gained.coatingMassGM2).toBeCloseTo(16, 6);
  });

  test("without a stripper the mass lies between gain x 1.30 and gain x 1.67", () => {
    const { atLeastGM2, atMostGM2 } = coatingMassBand(10);
    expect(atLeastGM2).toBeCloseTo(12.99, 2);
    expect(atMostGM2).toBeCloseTo(16.67, 2);
  });

  test.each([
    [0.1, true, 1],
    [1, true, 1],
    [10, false, 2],
    [20, false, 3],
  ])("a balance of %f mg: useful %s, weigh %i together", (balanceMg, useful, couponsTogether) => {
    expect(balanceFitness({ balanceMg, areaCm2, coupons: 1 })).toMatchObject({ useful, couponsTogether });
  });

  test("weighed together as it says, any balance tells a light coat from a good one", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 200, noNaN: true }), (balanceMg) => {
        const { couponsTogether } = balanceFitness({ balanceMg, areaCm2, coupons: 1 });
        expect(balanceFitness({ balanceMg, areaCm2, coupons: couponsTogether }).useful).toBe(true);
      }),
    );
  });

  test("three coupons weighed as one know a mass three times as well", () => {
    const one = weighingUncertainty({ balanceMg: 10, areaCm2, coatingMassGM2: 16 });
    const three = weighingUncertainty({ balanceMg: 10, areaCm2: 3 * areaCm2, coatingMassGM2: 16 });
    expect(one.uncertaintyGM2).toBeCloseTo(3 * three.uncertaintyGM2, 9);
  });

  test.each([
    ["massAfterG", () => coatingMassFromGain({ massBeforeG: 87.5, massAfterG: 87.4, areaCm2 })],
    ["massStrippedG", () => weighStripWeigh({ massBeforeG: 87.4, massCoatedG: 87.5, massStrippedG: 87.45, areaCm2 })],
    [
      "blankLossMg",
      () => weighStripWeigh({ massBeforeG: 87.4, massCoatedG: 87.5, massStrippedG: 87.3, areaCm2, blankLossMg: 201 }),
    ],
  ])("%s that cannot be is refused by name", (argument, weigh) => {
    expect(weigh).toThrow(new RegExp(`^${argument} is`));
  });
});

test("thickness and mass undo each other", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (coatingMassGM2) => {
      const thicknessUm = thicknessFromCoatingMass({ coatingMassGM2, densityGCm3: 2 });
      expect(coatingMassFromThickness({ thicknessUm, densityGCm3: 2 })).toBeCloseTo(coatingMassGM2, 9);
    }),
  );
});

test("one gram in a square foot is a thousand milligrams in it", () => {
  expect(coatingMassInGM2({ value: 1, unit: "gFt2" })).toBeCloseTo(coatingMassInGM2({ value: 1000, unit: "mgFt2" }), 9);
});
