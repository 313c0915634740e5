/** What is said of a table beside the table itself, as typed; the wishes it makes of the reader; the trial it asks for. */
import type { NewImport } from "../../api/import.ts";
import { type DateOrder, dateOrders } from "../../api/plain-table-date.ts";
import type { ValueKind } from "../../core/trial/declared-question.ts";
import { noReadingWishes, type TableReadingWishes } from "../../core/trial/plain-table.ts";
import { rustScales, type ScaleName } from "../../core/trial/scale-ends.ts";
import { plainAsk, type TableAsk } from "../../core/trial/table-question.ts";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { siFromTyped, typedNumber } from "../parts/quantity.ts";
import { importText } from "../text/import.ts";

export type ImportForm = {
  id: string;
  text: string;
  dates: string;
  /** Percent as typed, for each word of the table. */
  words: Record<string, string>;
  /** Of a table of values; "" until the user said. "tape": classes of a tape test, 5 the best. */
  kind: "" | "tape" | ValueKind;
  /** What the values are called. */
  measured: string;
  better: "" | "higher" | "lower";
  /** Of ratings, grades and classes; "": the usual one. */
  scale: "" | ScaleName;
  ratio: boolean;
  /** Columns that could explain a difference as well, by their headers. */
  circumstances: string[];
  control: string;
  witness: string;
  response: "time" | "area" | "grade";
  /** "" until the user said: was each coupon treated by itself? */
  separately: "" | "yes" | "unknown";
  margin: string;
  startedOn: string;
  lengthUnit: Preferences["length"];
  couponLength: string;
  couponWidth: string;
  couponThickness: string;
  edgeBand: string;
  question: string;
  name: string;
  /** A second trial of the very same table is wanted. */
  again: boolean;
};

/** What was said of one table; another is asked its own questions. */
export const nothingSaid = {
  dates: "",
  words: {},
  kind: "",
  measured: "",
  better: "",
  scale: "",
  ratio: false,
  circumstances: [],
} as const satisfies Partial<ImportForm>;

export const startImport = (id: string, length: Preferences["length"]): ImportForm => ({
  id,
  text: "",
  ...nothingSaid,
  control: "",
  witness: "",
  response: "time",
  separately: "",
  margin: "",
  startedOn: "",
  lengthUnit: length,
  couponLength: "",
  couponWidth: "",
  couponThickness: "",
  edgeBand: "",
  question: "",
  name: "",
  again: false,
});

/** How the table is to be read, as far as the user said. */
export function wishesOf(form: ImportForm): TableReadingWishes {
  const { kind, measured, better, scale } = form;
  const values =
    kind === "tape"
      ? ({ kind: "ordinal", response: "tape class", better: "higher" } as const)
      : {
          kind: kind === "" ? null : kind,
          response: measured.trim() === "" ? null : measured.trim(),
          better: better === "" ? null : better,
          scale: scale === "" ? null : scale,
        };
  return {
    ...noReadingWishes,
    dates: dateOrder(form.dates),
    words: wordPercents(form.words),
    circumstances: form.circumstances,
    ...values,
  };
}

/** What is asked of the table, as far as the user said. */
export function askOf({ response, scale, control, witness, separately, ratio }: ImportForm): TableAsk {
  return {
    ...plainAsk,
    response,
    scale: rustScales.find((one) => one === scale) ?? null,
    control: control === "" ? null : control,
    witness: witness === "" ? null : witness,
    family: control === "" ? "pairs" : "control",
    ratio,
    treatedSeparately: separately === "yes",
  };
}

const dateOrder = (typed: string): DateOrder | null => dateOrders.find((order) => order === typed) ?? null;

/** Only whole answers count: while one word has no percent, none is taken and the question stays. */
export function wordPercents(typed: Record<string, string>): Record<string, number> | null {
  const entries = Object.entries(typed).map(([word, percent]) => [word, typedNumber(percent)] as const);
  const read = entries.flatMap(([word, percent]) => (percent === null ? [] : [[word, percent] as const]));
  return read.length === 0 || read.length < entries.length ? null : Object.fromEntries(read);
}

export type ImportOrMissing =
  | { request: NewImport; missing: Record<string, string> }
  | { request: null; missing: Record<string, string> };

/** What is sent, or what is still missing by its place in the request. The coupon's size is asked, never supposed. */
export function importOf(form: ImportForm, by: string): ImportOrMissing {
  const missing: Record<string, string> = {};
  const preferences = { ...siPreferences, length: form.lengthUnit };
  const lengthAt = (pointer: string, typed: string): number => {
    const value = siFromTyped("length", typed, preferences);
    if (value === null) missing[pointer] = importText.needs.number(typed);
    return value ?? 0;
  };
  if (form.name.trim() === "") missing["/name"] = importText.needs.name;
  if (by.trim() === "") missing["/by"] = importText.needs.by;
  const margin = form.margin.trim() === "" ? null : typedNumber(form.margin);
  if (form.margin.trim() !== "" && margin === null) missing["/ask/margin"] = importText.needs.number(form.margin);
  const request: NewImport = {
    id: form.id,
    name: form.name.trim(),
    by: by.trim(),
    text: form.text,
    reading: { ...wishesOf(form), circumstances: form.circumstances },
    ask: { ...askOf(form), margin },
    question: form.question.trim(),
    couponSize: {
      lengthMm: lengthAt("/couponSize/lengthMm", form.couponLength),
      widthMm: lengthAt("/couponSize/widthMm", form.couponWidth),
      thicknessMm: lengthAt("/couponSize/thicknessMm", form.couponThickness),
    },
    edgeBandMm: lengthAt("/edgeBandMm", form.edgeBand),
    startedOn: form.startedOn === "" ? null : form.startedOn,
    again: form.again,
  };
  return Object.keys(missing).length > 0 ? { request: null, missing } : { request, missing };
}
