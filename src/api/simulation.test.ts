import { expect, test } from "vitest";
import { planAssumptions } from "../core/trial/plan-assumptions.ts";
import { observationBody } from "./observation.ts";

const share = { share: 0.81, error: 0.009 };
const point = { each: 6, line: "one", trials: 2000, shown: share, all: share, falselyShown: share };
const simulation = {
  kind: "simulation",
  plan: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11",
  declared: { response: "time to first rust", family: "control", margin: 1.5, atDay: null },
  each: 6,
  finishes: 1,
  size: 3,
  assumed: planAssumptions(25),
  scatterFrom: "",
  seed: 1,
  draws: 499,
  program: "0.1.0",
  wanted: 2000,
  points: [point],
};

test.each([
  ["as the page makes it", {}, true],
  ["without a point there is nothing to keep", { points: [] }, false],
  ["a chance above 1", { points: [{ ...point, shown: { share: 1.1, error: 0 } }] }, false],
  ["without the program that simulated", { program: "" }, false],
])("a simulated curve: %s", (_, part, fits) =>
  expect(observationBody.safeParse({ ...simulation, ...part }).success).toBe(fits),
);
