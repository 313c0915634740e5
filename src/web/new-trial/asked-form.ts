/** What will be compared, as it is typed, and its way to a declared question. */
import type {
  DeclaredQuestion,
  DeclaredResponse,
  ValueResponse,
  WearPlace,
} from "../../core/trial/declared-question.ts";
import { knownResponses, type ValueKind } from "../../core/trial/declared-question.ts";
import type { RustScale } from "../../core/trial/scale-ends.ts";
import { type ColourMeasure, type ColourState, colourMeasures, colourUnits } from "../../core/trial/seen-as.ts";
import { type WeighedAs, weighedUnit } from "../../core/trial/weighed-as.ts";
import { askedText } from "../text/asked.ts";

/** Every field of every kind, so that what was typed is still there after another choice. */
export type AskedForm = {
  response: DeclaredResponse;
  asked: boolean;
  /** "order": one test of the treatments in the order in which they stand in the form. */
  family: DeclaredQuestion["family"] | "order";
  margin: string;
  atDay: string;
  scale: RustScale;
  place: WearPlace;
  name: string;
  kind: ValueKind;
  unit: string;
  better: "higher" | "lower";
  ratio: boolean;
  best: string;
  worst: string;
  weighed: WeighedAs | ColourMeasure | "typed";
  /** Of a finish colour. */
  state: ColourState;
  /** Absent: nothing was said yet. */
  chance?: ChanceForm;
};

/** What is expected of this response, for the curve of chances; empty: not said. */
export type ChanceForm = {
  /** What half of the control reaches; of rust the days stand in the trial's own form. */
  control: string;
  /** The difference to find. */
  size: string;
  /** Weibull shape, or the scatter of the response. */
  scatter: string;
  /** Where the scatter was taken from, in words; absent: typed, or as usual. */
  from?: string;
  /** Between blocks, from there too. */
  blockLogSd?: number;
};

export const blankChance: ChanceForm = { control: "", size: "", scatter: "" };

export const blankAsked = (response: DeclaredResponse): AskedForm => ({
  response,
  asked: response === "time to first rust",
  family: "control",
  margin: "",
  atDay: "",
  scale: "iso10289",
  place: "face",
  name: "",
  kind: "continuous",
  unit: "",
  better: "higher",
  ratio: false,
  best: "5",
  worst: "0",
  weighed: "typed",
  state: "dry and wiped",
});

export const startAsked = (): AskedForm[] => [...knownResponses, "value" as const].map(blankAsked);

/** Reads a typed number at a field, and says what is missing. */
export type FieldReader = {
  numberAt: (field: string, typed: string) => number;
  refuse: (field: string, detail: string) => void;
};

export const isOrdered = ({ family }: AskedForm): boolean => family === "order";

/** All but the order of the treatments, which the treatments say. */
export function declaredOf(form: AskedForm, { numberAt, refuse }: FieldReader): DeclaredQuestion {
  const { response } = form;
  const family = form.family === "order" ? "pairs" : form.family;
  const margin = form.margin.trim() === "" ? null : numberAt("/margin", form.margin);
  const dayTyped = form.atDay.trim() === "" ? null : numberAt("/atDay", form.atDay);
  switch (response) {
    case "rusted area":
      return { response, family, margin, atDay: dayTyped };
    case "grade":
      return { response, family, margin, atDay: dayTyped, scale: form.scale };
    case "strokes to breakthrough":
      return { response, family, margin, atDay: null, place: form.place };
    case "value": {
      const { kind, better, unit, ratio, best, worst } = form;
      const made = kind === "continuous" ? madeOf(form) : {};
      const name = form.name.trim();
      if (name === "") refuse("/name", askedText.needsName);
      const scale =
        kind === "ordinal" ? { best: numberAt("/scale/best", best), worst: numberAt("/scale/worst", worst) } : null;
      return {
        response,
        family,
        margin,
        atDay: null,
        name,
        kind,
        // Yes is the good outcome; of classes the scale says which end is.
        better: kind === "binary" ? "higher" : scale ? (scale.best > scale.worst ? "higher" : "lower") : better,
        unit:
          kind !== "continuous" ? "" : made.weighed ? weighedUnit : made.seen ? colourUnits[made.seen.of] : unit.trim(),
        ratio: kind === "continuous" && ratio,
        scale,
        ...made,
      };
    }
    default:
      return { response, family, margin, atDay: null };
  }
}

/** Weighed, photographed, or (neither) written down. */
function madeOf({ weighed, state }: AskedForm): Pick<ValueResponse, "weighed" | "seen"> {
  if (weighed === "typed") return {};
  return isColourMeasure(weighed) ? { seen: { of: weighed, state } } : { weighed };
}

export const isColourMeasure = (one: AskedForm["weighed"]): one is ColourMeasure =>
  colourMeasures.some((measure) => measure === one);
