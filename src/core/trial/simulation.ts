/** A simulated curve of chances as it is written down. */
import type { DeclaredQuestion } from "./declared-question.ts";
import type { BetterOnes, PlanAssumptions } from "./plan-assumptions.ts";

type Share = { share: number; error: number };

/** One number of coupons under one truth; shares of `trials`, with their Monte Carlo errors. */
export type KeptPoint = {
  each: number;
  line: BetterOnes;
  trials: number;
  /** Of a true difference, on average. */
  shown: Share;
  /** Of all of them at once. */
  all: Share;
  falselyShown: Share;
};

export type Simulation = {
  kind: "simulation";
  /** The wording of the plan that was simulated, by id. */
  plan: string;
  declared: DeclaredQuestion;
  /** Coupons of each treatment that the plan has for this question, and treatments beside the one they are compared with. */
  each: number;
  finishes: number;
  size: number;
  assumed: PlanAssumptions;
  /** Where the scatter was taken from; "": assumed. */
  scatterFrom: string;
  seed: number;
  /** Rearrangements drawn in a trial where not all are counted. */
  draws: number;
  /** The version of the program that simulated. */
  program: string;
  /** Trials that each point was to have. */
  wanted: number;
  points: KeptPoint[];
};
