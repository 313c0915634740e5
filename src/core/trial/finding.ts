/** What a question's answer looks like: plain data, sentence and verdict included. The faces only draw it. */

export const verdicts = [
  "shown",
  "suggested",
  "not told apart",
  "equivalent within the margin",
  "cannot be told",
] as const;
export type Verdict = (typeof verdicts)[number];

export type ResponseKind = "time" | "area" | "ordinal" | "continuous" | "binary";

export const effectNames = [
  "time ratio",
  "stroke ratio",
  "area ratio",
  "Cliff's delta",
  "class shift",
  "difference",
  "ratio",
  "difference of shares",
] as const;

/** First relative to second. A missing limit is null. */
export type Effect = {
  name: (typeof effectNames)[number];
  value: number | null;
  lower: number | null;
  upper: number | null;
  confidence: number;
};

/** One coupon's own datum, drawn as a numbered mark. */
export type CouponPoint = {
  coupon: string;
  treatment: string;
  block: string | null;
  /** An interval of days or strokes (right null: not yet), or a value. */
  datum: { left: number; right: number | null } | { value: number };
  /** Touched by a deviation that counts. */
  deviation: string | null;
};

export type Finding = {
  first: string;
  second: string;
  /** Units, not coupons. */
  n: [number, number];
  effect: Effect | null;
  p: number | null;
  pAdjusted: number | null;
  pAdjustedIsLowerBound: boolean;
  pMin: number | null;
  method: string;
  margin: number | null;
  equivalence: { p: number; pAdjusted: number } | null;
  verdict: Verdict;
  sentence: string;
  because: string[];
  wouldTell: { power: number; perTreatment: number | null }[] | null;
};

export type Confounded = { circumstance: string; treatments: string[]; how: "fully" | "heavily" | "partly" };

/** The answer to a declared order of treatments: one test, one p. */
export type Trend = {
  /** From the first to the last, as declared. */
  order: string[];
  /** Units of each. */
  n: number[];
  p: number | null;
  pMin: number | null;
  method: string;
  /** The last of the order against the first. */
  effect: Effect | null;
  verdict: Verdict;
  sentence: string;
  because: string[];
};

/** The answer to one question: the JSON form of the `findings` command. */
export type QuestionFindings = {
  response: string;
  kind: ResponseKind;
  family: "control" | "pairs";
  control: string | null;
  /** Coupons compared, witnesses left out; each finding's own `n` counts units. */
  units: Record<string, number>;
  overall: { p: number; method: string } | null;
  findings: Finding[];
  confounded: Confounded[];
  notes: string[];
  /** Only where an order of the treatments was declared: it stands in place of the comparisons. */
  trend?: Trend;
};

/** With the points that a face draws: every coupon of the question, witnesses included. */
export type AnsweredQuestion = QuestionFindings & { points: CouponPoint[]; witnesses: string[]; unit: string };
