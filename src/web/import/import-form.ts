/** What is said of a table beside the table itself, as typed; the wishes it makes of the reader; the trial it asks for. */
import type { NewImport } from "../../api/import.ts";
import { type DateOrder, dateOrders } from "../../api/plain-table-date.ts";
import { noReadingWishes, type TableReadingWishes } from "../../core/trial/plain-table.ts";
import { plainAsk } from "../../core/trial/table-question.ts";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { siFromTyped, typedNumber } from "../parts/quantity.ts";
import { importText } from "../text/import.ts";

export type ImportForm = {
  id: string;
  text: string;
  dates: string;
  /** Percent as typed, for each word of the table. */
  words: Record<string, string>;
  /** The user says that the values are classes of a tape test. */
  tape: boolean;
  control: string;
  witness: string;
  response: "time" | "area";
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
};

export const startImport = (id: string, length: Preferences["length"]): ImportForm => ({
  id,
  text: "",
  dates: "",
  words: {},
  tape: false,
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
});

type Wishing = Pick<ImportForm, "dates" | "words" | "tape">;

export function wishesOf({ dates, words, tape }: Wishing): TableReadingWishes {
  const tapeWishes = tape ? ({ kind: "ordinal", response: "tape class", better: "higher" } as const) : {};
  return { ...noReadingWishes, dates: dateOrder(dates), words: wordPercents(words), ...tapeWishes };
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
    reading: { ...wishesOf(form), circumstances: [] },
    ask: {
      ...plainAsk,
      response: form.tape ? null : form.response,
      control: form.control === "" ? null : form.control,
      witness: form.witness === "" ? null : form.witness,
      family: form.control === "" ? "pairs" : "control",
      margin,
      treatedSeparately: form.separately === "yes",
    },
    question: form.question.trim(),
    couponSize: {
      lengthMm: lengthAt("/couponSize/lengthMm", form.couponLength),
      widthMm: lengthAt("/couponSize/widthMm", form.couponWidth),
      thicknessMm: lengthAt("/couponSize/thicknessMm", form.couponThickness),
    },
    edgeBandMm: lengthAt("/edgeBandMm", form.edgeBand),
    startedOn: form.startedOn === "" ? null : form.startedOn,
  };
  return Object.keys(missing).length > 0 ? { request: null, missing } : { request, missing };
}
