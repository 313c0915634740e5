import { describe, expect, test } from "vitest";
import { fallingSand } from "./falling-sand.ts";
import { wearCyclesPerMil, wearIndex } from "./wear-index.ts";
import { wetScrub } from "./wet-scrub.ts";

describe("abrasion", () => {
  test("45 mg in 500 cycles is an index of 90, divided by the relative density when films differ", () => {
    const panel = { massBeforeG: 85.4321, massAfterG: 85.3871, cycles: 500 };
    expect(wearIndex(panel)).toBeCloseTo(90, 8);
    expect(wearIndex({ ...panel, relativeDensity: 1.5 })).toBeCloseTo(60, 8);
  });

  test("1800 cycles through 38.1 µm (1.5 mil) are 1200 per mil", () => {
    expect(wearCyclesPerMil({ cycles: 1800, thicknessUm: 38.1 })).toBeCloseTo(1200, 9);
  });

  test("85 L of sand through 43.18 µm (1.7 mil) are 50 L per mil", () => {
    const sand = fallingSand({ sandVolumeL: 85, thicknessUm: 43.18 });
    expect(sand.litresPerMil).toBeCloseTo(50, 9);
    expect(sand.litresPerUm).toBeCloseTo(50 / 25.4, 9);
  });

  test("0.24 g from 120 cm² of density 1.6 are 20 g/m² and 12.5 µm", () => {
    const panel = { massBeforeG: 25.41, massAfterG: 25.17, scrubbedAreaCm2: 120, densityGCm3: 1.6 };
    const loss = wetScrub(panel);
    expect(loss.lossGM2).toBeCloseTo(20, 8);
    expect(loss.lossUm).toBeCloseTo(12.5, 8);
  });

  test.each([
    ["massAfterG", () => wearIndex({ massBeforeG: 1, massAfterG: 1.1, cycles: 5 })],
    ["cycles", () => wearIndex({ massBeforeG: 1, massAfterG: 0.9, cycles: 0 })],
    ["relativeDensity", () => wearIndex({ massBeforeG: 1, massAfterG: 0.9, cycles: 5, relativeDensity: 0 })],
    ["thicknessUm", () => wearCyclesPerMil({ cycles: 100, thicknessUm: 0 })],
    ["sandVolumeL", () => fallingSand({ sandVolumeL: -1, thicknessUm: 30 })],
    ["massAfterG", () => wetScrub({ massBeforeG: 1, massAfterG: 2, scrubbedAreaCm2: 1, densityGCm3: 1 })],
    ["scrubbedAreaCm2", () => wetScrub({ massBeforeG: 2, massAfterG: 1, scrubbedAreaCm2: 0, densityGCm3: 1 })],
  ])("%s is refused by name", (argument, ask) => {
    expect(ask).toThrow(new RegExp(`^${argument} is`));
  });
});
