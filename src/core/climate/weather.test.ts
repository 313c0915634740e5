import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chlorideClass, corrosivityCategory, indoorCategory, so2Class, timeOfWetnessClass } from "./climate-classes.ts";
import { deliquescenceRh } from "./deliquescence.ts";
import { chlorideExponentIncrement, doseResponse, longTermAttack } from "./dose-response.ts";
import {
  absoluteHumidity,
  dewPoint,
  dewPointMargin,
  rhAtSurface,
  rhFromDewPoint,
  saturationVapourPressure,
} from "./humid-air.ts";
import { steelTimeConstant, steelWarmUp } from "./steel-warm-up.ts";
import { timeOfWetness } from "./time-of-wetness.ts";

describe("humid air", () => {
  test.each([
    [20, 50, 9.2611],
    [15, 70, 9.5724],
    [-8, 75, -11.6525],
    [18, 100, 18],
  ])("air of %d °C and %d %% has its dew point at %d °C", (tempC, rhPercent, expected) => {
    expect(dewPoint({ tempC, rhPercent })).toBeCloseTo(expected, 3);
  });

  test("steel at the dew point sees 100 %: it condenses", () => {
    const air = fc.record({
      tempC: fc.double({ min: -20, max: 50, noNaN: true }),
      rhPercent: fc.double({ min: 5, max: 99, noNaN: true }),
    });
    fc.assert(
      fc.property(air, ({ tempC, rhPercent }) => {
        const surfaceTempC = dewPoint({ tempC, rhPercent });
        fc.pre(surfaceTempC > -40);
        expect(rhAtSurface({ airTempC: tempC, rhPercent, surfaceTempC }).surfaceRhPercent).toBeCloseTo(100, 8);
        expect(dewPointMargin({ airTempC: tempC, rhPercent, steelTempC: tempC }).marginC).toBeGreaterThan(0);
        expect(rhFromDewPoint({ tempC, dewPointC: surfaceTempC })).toBeCloseTo(rhPercent, 8);
      }),
    );
  });

  test("known points", () => {
    expect(saturationVapourPressure(20)).toBeCloseTo(23.3344, 4);
    expect(absoluteHumidity({ tempC: 20, rhPercent: 50 })).toBeCloseTo(8.62374, 4);
    expect(rhAtSurface({ airTempC: 15, rhPercent: 70, surfaceTempC: 5 }).condensation).toBe(true);
    expect(deliquescenceRh({ salt: "NaCl", tempC: 25 })).toBeCloseTo(75.25, 1);
    expect(deliquescenceRh({ salt: "MgCl2.6H2O", tempC: 25 })).toBeCloseTo(32.8, 1);
  });

  test.each([
    ["tempC", () => saturationVapourPressure(60)],
    ["rhPercent", () => dewPoint({ tempC: 20, rhPercent: 0 })],
    ["dewPointC", () => rhFromDewPoint({ tempC: 20, dewPointC: -60 })],
    ["rhPercent", () => dewPoint({ tempC: 20, rhPercent: 101 })],
    ["tempC", () => dewPoint({ tempC: Number.NaN, rhPercent: 50 })],
    ["salt", () => deliquescenceRh({ salt: "LiBr" as "NaCl", tempC: 25 })],
  ])("%s is refused by name", (argument, ask) => {
    expect(ask).toThrow(new RegExp(`^${argument} is`));
  });
});

describe("time of wetness", () => {
  const reading = (elapsedHours: number, rhPercent: number | null, tempC: number | null = 10) => ({
    elapsedHours,
    tempC,
    rhPercent,
  });

  test.each([
    // what                                   readings                                     wet observed missing (interval 1 h)
    ["one reading stands for one interval", [reading(0, 90)], [1, 1, 0]],
    [
      "80 % and 0 °C are dry: both limits are strict",
      [reading(0, 80), reading(1, 90, 0), reading(2, 80.1, 0.1)],
      [1, 3, 0],
    ],
    ["by interval length, not by count", [reading(0, 90), reading(0.5, 70), reading(2, 90)], [1.5, 3, 0]],
    ["two intervals are bridged", [reading(0, 90), reading(2, 50)], [2, 3, 0]],
    ["a longer gap stays missing", [reading(0, 90), reading(4, 50)], [1, 2, 3]],
    ["a reading without humidity makes its time missing", [reading(0, null), reading(1, 90)], [1, 1, 1]],
    ["never wet", [reading(0, 40), reading(1, 30)], [0, 2, 0]],
  ] as const)("%s", (_, series, [wetHours, observedHours, missingHours]) => {
    expect(timeOfWetness({ series: [...series], intervalHours: 1 })).toEqual({ wetHours, observedHours, missingHours });
  });

  test("tenths of hours are not taken for gaps", () => {
    const series = [0.7, 0.9, 1.1, 1.3].map((at) => reading(at, 90));
    expect(timeOfWetness({ series, intervalHours: 0.1 }).missingHours).toBe(0);
  });

  test("observed and missing make the whole span and one interval", () => {
    const steps = fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 100 }), fc.boolean()), {
      minLength: 1,
    });
    fc.assert(
      fc.property(steps, (list) => {
        let at = 0;
        const series = list.map(([step, rh, known]) => {
          at += step;
          return reading(at, known ? rh : null);
        });
        const { wetHours, observedHours, missingHours } = timeOfWetness({ series, intervalHours: 1 });
        expect(observedHours + missingHours).toBeCloseTo(at - series[0]!.elapsedHours + 1, 9);
        expect(wetHours).toBeLessThanOrEqual(observedHours);
      }),
    );
  });

  test.each([
    ["series", []],
    ["series[1].elapsedHours", [reading(1, 90), reading(1, 90)]],
    ["series[0].rhPercent", [reading(0, 140)]],
    ["series[0].tempC", [reading(0, 90, Number.NaN)]],
  ])("%s is refused by name", (argument, series) => {
    expect(() => timeOfWetness({ series, intervalHours: 1 })).toThrow(`${argument} is`);
  });
});

describe("classes", () => {
  test.each([
    [() => timeOfWetnessClass(10), "tau1"],
    [() => timeOfWetnessClass(10.5), "tau2"],
    [() => timeOfWetnessClass(5501), "tau5"],
    [() => so2Class({ so2DepositionMgM2Day: 10, edition: "1992" }), "P0"],
    [() => so2Class({ so2DepositionMgM2Day: 10, edition: "2012" }), "P1"], // the editions differ
    [() => so2Class({ so2DepositionMgM2Day: 201, edition: "2012" }), "outside"],
    [() => chlorideClass(3), "S0"],
    [() => chlorideClass(1501), "outside"],
    [() => corrosivityCategory({ metal: "carbonSteel", firstYearLoss: 1.3, unit: "umPerYear" }), "C1"],
    [() => corrosivityCategory({ metal: "carbonSteel", firstYearLoss: 1.31, unit: "umPerYear" }), "C2"],
    [() => corrosivityCategory({ metal: "zinc", firstYearLoss: 5.01, unit: "gM2Year" }), "C3"],
    [() => corrosivityCategory({ metal: "carbonSteel", firstYearLoss: 701, unit: "umPerYear" }), "outside"],
    [() => indoorCategory({ metal: "carbonSteel", massLossMgM2Year: 70 }), "IC1"],
    [() => indoorCategory({ metal: "silver", massLossMgM2Year: 16701 }), "outside"],
  ])("%s is %s", (ask, name) => {
    expect(ask()).toBe(name);
  });

  test("more hours than a year has are refused", () => {
    expect(() => timeOfWetnessClass(9000)).toThrow(/^wetHoursPerYear is 9000/);
  });
});

describe("dose and response", () => {
  const zinc = {
    metal: "zinc" as const,
    tempC: 15,
    rhPercent: 70,
    so2DepositionMgM2Day: 4,
    chlorideDepositionMgM2Day: 3,
  };

  test("zinc's published test value", () => {
    expect(doseResponse(zinc).rateUmPerYear).toBeCloseTo(0.6217113, 7);
  });

  test("no chloride leaves the sulfur term, flagged as outside the fitted range", () => {
    const inland = doseResponse({
      ...zinc,
      metal: "carbonSteel",
      tempC: 9,
      rhPercent: 78,
      so2DepositionMgM2Day: 2,
      chlorideDepositionMgM2Day: 0,
    });
    expect(inland.rateUmPerYear).toBeCloseTo(10.39594764, 7);
    expect(inland.withinFittedRange).toBe(false);
  });

  test.each([
    ["tempC", { tempC: 40 }],
    ["rhPercent", { rhPercent: 104 }],
    ["chlorideDepositionMgM2Day", { chlorideDepositionMgM2Day: 2500 }],
    ["metal", { metal: "tin" as "zinc" }],
  ])("%s is refused by name", (argument, changed) => {
    expect(() => doseResponse({ ...zinc, ...changed })).toThrow(new RegExp(`^${argument} is`));
  });

  test("zinc over 30 years: ISO 9224's test value, and no step where the tangent takes over", () => {
    expect(longTermAttack({ metal: "zinc", exponentSet: "mean", firstYearUm: 1, yearsExposed: 30 })).toBeCloseTo(
      16.06486657718,
      9,
    );
    const at = (yearsExposed: number) => longTermAttack({ exponentB: 0.5, firstYearUm: 10, yearsExposed });
    expect(at(20.000001) - at(20)).toBeLessThan(1e-5);
    expect(at(1)).toBe(10);
    expect(chlorideExponentIncrement(60)).toBeCloseTo(0.245, 3);
  });

  test("half a year is refused", () => {
    expect(() => longTermAttack({ exponentB: 0.5, firstYearUm: 30, yearsExposed: 0.5 })).toThrow(
      /^yearsExposed is 0.5/,
    );
  });
});

describe("cold steel in warm air", () => {
  const bar = { shape: "bar" as const, sizeMm: 25, heatTransferWM2K: 10 };

  test("a 25 mm bar at 5 °C stays wet for 23.5 minutes in 15 °C, 70 %", () => {
    const warmed = steelWarmUp({ ...bar, startTempC: 5, airTempC: 15, rhPercent: 70, elapsedS: 0 });
    expect(warmed.steelTempC).toBe(5);
    expect(warmed.wetTimeS).toBeCloseTo(1409.133, 2);
  });

  test("at the end of the wet time the steel is at the dew point", () => {
    const cold = { ...bar, startTempC: -4, airTempC: 9, rhPercent: 88 };
    const { wetTimeS } = steelWarmUp({ ...cold, elapsedS: 0 });
    const then = steelWarmUp({ ...cold, elapsedS: wetTimeS! });
    expect(then.steelTempC).toBeCloseTo(then.dewPointC, 9);
  });

  test("warm steel is never wet; in saturated air cold steel never dries", () => {
    expect(steelWarmUp({ ...bar, startTempC: 14, airTempC: 20, rhPercent: 50, elapsedS: 9 }).wetTimeS).toBe(0);
    expect(steelWarmUp({ ...bar, startTempC: 5, airTempC: 20, rhPercent: 100, elapsedS: 9 }).wetTimeS).toBeNull();
  });

  test("a body too thick for one temperature is refused", () => {
    expect(() => steelTimeConstant({ shape: "bar", sizeMm: 2500, heatTransferWM2K: 20 })).toThrow(/^sizeMm is 2500/);
  });
});
