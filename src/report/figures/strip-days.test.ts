import { expect, test } from "vitest";
import { stripDays } from "./strip-days.ts";

test.each([
  ["planned only", { looks: [], plannedDays: [1, 84], nowDay: null }, 84],
  ["a look after the plan", { looks: [{ day: 90 }], plannedDays: [84], nowDay: 20 }, 90],
  ["still hanging a little longer", { looks: [], plannedDays: [84], nowDay: 100 }, 100],
  ["forgotten outdoors for years", { looks: [], plannedDays: [84], nowDay: 900 }, 84],
  ["nothing planned, nothing seen", { looks: [], plannedDays: [], nowDay: null }, 1],
])("%s", (_what, given, days) => expect(stripDays(given)).toBe(days));
