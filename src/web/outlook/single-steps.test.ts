import { describe, expect, test } from "vitest";
import type { RouteStep } from "../../core/trial/trial-record.ts";
import { hasSharedDifference, withSingleSteps } from "./single-steps.ts";

const step = (name: string, treated: RouteStep["treated"]): RouteStep => ({ name, treated });
const control = { role: "control" as const, route: [step("clean", "together"), step("oil", "alone")] };
const finish = {
  role: "finish" as const,
  route: [step("clean", "together"), step("phosphate", "together"), step("oil", "alone")],
};
const witness = { role: "witness" as const, route: [step("number", "together")] };

describe("differing steps made single", () => {
  test("the bath that only one treatment has; the shared cleaning stays as it was", () =>
    expect(withSingleSteps([control, finish])[1]?.route).toEqual([
      step("clean", "together"),
      step("phosphate", "alone"),
      step("oil", "alone"),
    ]));
  test("a witness is outside the comparison: it neither counts nor changes", () =>
    expect(withSingleSteps([control, finish, witness])[2]).toBe(witness));
  test("nothing to change is said to be so", () => {
    expect(hasSharedDifference([control, finish])).toBe(true);
    expect(hasSharedDifference([control, control])).toBe(false);
    expect(hasSharedDifference(withSingleSteps([control, finish]))).toBe(false);
  });
});
