/** Words of what will be compared: in the form of a new trial, and as it was declared. */
import type { DeclaredQuestion, DeclaredResponse, WearPlace } from "../../core/trial/declared-question.ts";
import { marginKind, type ValueKind } from "../../core/trial/declared-question.ts";
import { type RustScale, scaleTitles } from "../../core/trial/scale-ends.ts";
import type { ColourMeasure } from "../../core/trial/seen-as.ts";
import type { WeighedAs } from "../../core/trial/weighed-as.ts";
import { capital } from "../../report/capital.ts";
import { counted } from "./parts.ts";

export const askedText = {
  title: "What will be compared",
  explain: "Declared before the first look, so that nobody picks the comparison that pleases.",
  responses: {
    "time to first rust": "Time to first rust",
    "rusted area": "Rusted area at a date",
    "tape class": "Tape test class",
    grade: "Rust grade at a date",
    "strokes to breakthrough": "Strokes until worn through",
    value: "A value of your own",
  } satisfies Record<DeclaredResponse, string>,
  more: "Something else: grades, wear, a value of your own",
  family: "Compare",
  families: {
    control: "each treatment with the control",
    pairs: "every pair of treatments",
    order: "their order: does more of it do more?",
  },
  ordered: (names: readonly string[]) =>
    `One test of the order in which they stand above: ${names.map((name) => name || "…").join(", ")}.`,
  margin: "Smallest difference that matters to you",
  marginNone: "Left empty, no difference is too small to matter, and “equivalent” can never be the answer.",
  takeOffer: (offer: string) => `Use ${offer}`,
  atDay: "On day",
  atDayHint: "Empty: the last look that all compared coupons have.",
  scale: "Graded on",
  scales: {
    iso10289: "ISO 10289, 10 the best",
    d610: "ASTM D610, 10 the best",
    iso4628: "ISO 4628-3, 0 the best",
  } satisfies Record<RustScale, string>,
  place: "Where the wear test runs",
  places: { face: "in the middle of the face", edge: "at an edge" } satisfies Record<WearPlace, string>,
  name: "What is measured",
  nameHint: "For instance: coating mass.",
  kind: "Kind of value",
  kinds: {
    continuous: "a measured number",
    ordinal: "classes on a scale",
    binary: "yes or no",
    area: "percent of the face",
  } satisfies Record<ValueKind, string>,
  unit: "Unit",
  unitHint: "For instance: g/m².",
  weighed: "How it is found",
  weighedAs: {
    typed: "measured and written down",
    gain: "weighed: coating mass from what a coupon gained",
    stripping: "weighed: coating mass by stripping",
    "oil taken up": "weighed: oil taken up",
    "oil after wiping": "weighed: oil left after wiping",
    "oil after days": "weighed: oil left after days of drip",
    lightness: "photographed: how dark the finish is",
    unevenness: "photographed: how uneven the finish is",
    change: "photographed: how much its colour changed",
  } satisfies Record<WeighedAs | ColourMeasure | "typed", string>,
  state: "Photographed while it is",
  stripping:
    "The standard stripper holds chromium(VI), which causes cancer: send the coupons out to a laboratory, or skip it and weigh the gain.",
  better: "Better is",
  betters: { higher: "more", lower: "less" },
  ratio: "Compare as ratios: how many times as much, not how much more",
  best: "Best class",
  worst: "Worst class",
  another: "Add another value",
  remove: "Take this value out",
  needsName: "Say what is measured.",
};

/** What a margin of this question is written in. */
export function marginUnit(declared: DeclaredQuestion): string {
  if (declared.response === "rusted area") return "times the area";
  if (declared.response === "time to first rust") return "times as long";
  if (declared.response === "strokes to breakthrough") return "times as many";
  switch (marginKind(declared)) {
    case "factor":
      return "times as much";
    case "classes":
      return "classes";
    case "share":
      return "as a share: 0.2 is one in five";
    case "difference":
      return declared.response === "value" ? declared.unit : "";
  }
}

/** "Rusted area on day 28". */
export function declaredText(declared: DeclaredQuestion): string {
  const onDay = declared.atDay === null ? "at the last common look" : `on day ${declared.atDay}`;
  switch (declared.response) {
    case "rusted area":
      return `Rusted area ${onDay}`;
    case "grade":
      return `Rust grade on ${scaleTitles[declared.scale]}, ${onDay}`;
    case "tape class":
      return declared.named ? capital(declared.named) : askedText.responses["tape class"];
    case "strokes to breakthrough":
      return `Strokes until worn through${declared.place === null ? "" : ` ${askedText.places[declared.place]}`}`;
    case "value":
      return `${capital(declared.name)}${declared.unit === "" ? "" : ` in ${declared.unit}`}`;
    case "time to first rust":
      return askedText.responses[declared.response];
  }
}

/** "a time below 1.5 times as long does not matter". */
export function marginText(declared: DeclaredQuestion): string {
  const { margin } = declared;
  if (margin === null) return "no difference was called too small to matter";
  const kind = marginKind(declared);
  const least =
    kind === "classes"
      ? counted(margin, "class", "classes")
      : `${margin} ${kind === "share" ? "" : marginUnit(declared)}`.trim();
  const what =
    kind === "share" ? "a difference of shares" : kind === "factor" ? nouns[declared.response] : "a difference";
  return `${what} below ${least} does not matter`;
}

const nouns: Record<DeclaredResponse, string> = {
  "time to first rust": "a time",
  "rusted area": "an area",
  "strokes to breakthrough": "a number of strokes",
  "tape class": "a class",
  grade: "a grade",
  value: "a value",
};
