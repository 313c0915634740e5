/** What was declared before the first look: one response, its family of comparisons, its margin. */
import type { ResponseKind } from "./finding.ts";
import type { RustScale, ScaleEnds } from "./scale-ends.ts";
import type { SeenAs } from "./seen-as.ts";
import type { WeighedAs } from "./weighed-as.ts";

export const valueKinds = ["continuous", "ordinal", "binary", "area"] as const;
export type ValueKind = (typeof valueKinds)[number];

/** Where a wear test ran: the middle of a face, or an edge, where a coat is thinnest. */
export const wearPlaces = ["face", "edge"] as const;
export type WearPlace = (typeof wearPlaces)[number];

/** A measured value under a name that the user gave it ("coating mass", in g/m²). */
export type ValueResponse = {
  response: "value";
  name: string;
  kind: ValueKind;
  better: "higher" | "lower";
  /** As the values are written down; "" where a table did not say. */
  unit: string;
  /** Continuous only: compared as ratios. */
  ratio: boolean;
  /** Ordinal only. */
  scale: ScaleEnds | null;
  /** Continuous, in g/m² only: made of weighings instead of being written down. */
  weighed?: WeighedAs;
  /** Continuous only: made of finish colours instead of being written down. */
  seen?: SeenAs;
};

/** `atDay`: days from the start; null: the last look that all compared coupons have. */
export type AskedResponse =
  | { response: "time to first rust"; atDay: null }
  | { response: "rusted area"; atDay: number | null }
  | { response: "grade"; scale: RustScale; atDay: number | null }
  /** `named`: what a table called its tape classes, if something else. */
  | { response: "tape class"; named?: string; atDay: null }
  /** `place` null: nobody wrote down where the test ran. */
  | { response: "strokes to breakthrough"; place: WearPlace | null; atDay: null }
  | (ValueResponse & { atDay: null });

/** One response with its family of comparisons and margin. */
export type DeclaredQuestion = AskedResponse & {
  family: "control" | "pairs";
  /**
   * A factor above 1 for times, strokes, areas and ratios, classes, a difference of shares, or the values' own unit;
   * null: no size is called too small to matter.
   */
  margin: number | null;
  /** Asked after the results were known. */
  exploratory?: true;
  /** Treatments in an order that was declared (more oil, longer bath): one test of the order, in place of the comparisons. */
  order?: string[];
};

export type DeclaredResponse = DeclaredQuestion["response"];

/** Each but a value under a name of its own. */
export const knownResponses = [
  "time to first rust",
  "rusted area",
  "tape class",
  "grade",
  "strokes to breakthrough",
] as const satisfies DeclaredResponse[];

/** What the answers call it. */
export function responseName(declared: DeclaredQuestion): string {
  if (declared.response === "value") return declared.name;
  return declared.response === "tape class" ? (declared.named ?? declared.response) : declared.response;
}

const kinds = {
  "time to first rust": "time",
  "strokes to breakthrough": "time",
  "rusted area": "area",
  grade: "ordinal",
  "tape class": "ordinal",
} as const satisfies Record<Exclude<DeclaredResponse, "value">, ResponseKind>;

/** Which tests and effects answer it. */
export function responseKind(declared: DeclaredQuestion): ResponseKind {
  return declared.response === "value" ? declared.kind : kinds[declared.response];
}

/** What a margin is measured in: a factor, or a difference in something. */
export type MarginKind = "factor" | "classes" | "share" | "difference";

/** How its margin is to be read: a factor above 1, whole classes, a share from 0 to 1, or the value's own unit. */
export function marginKind(declared: DeclaredQuestion): MarginKind {
  const kind = responseKind(declared);
  if (kind === "ordinal") return "classes";
  if (kind === "binary") return "share";
  return kind === "continuous" && !(declared.response === "value" && declared.ratio) ? "difference" : "factor";
}
