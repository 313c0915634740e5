/** A declared question of a measured value: every pair, coating mass. Incomplete blocks are offered for such only. */
import type { DeclaredQuestion } from "../src/core/trial/declared-question.ts";

export const weighedCoupons: DeclaredQuestion = {
  response: "value",
  name: "coating mass",
  kind: "continuous",
  better: "higher",
  unit: "g/m²",
  ratio: false,
  scale: null,
  family: "pairs",
  margin: null,
  atDay: null,
};
