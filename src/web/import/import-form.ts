/** What is said of a table beside the table itself, as typed, and the wishes it makes of the reader. */
import { type DateOrder, dateOrders } from "../../api/plain-table-date.ts";
import { noReadingWishes, type RustScale, rustScales, type TableReadingWishes } from "../../core/trial/plain-table.ts";
import { typedNumber } from "../parts/quantity.ts";

export type ImportForm = {
  id: string;
  text: string;
  dates: string;
  scale: string;
  /** Percent as typed, for each word of the table. */
  words: Record<string, string>;
  control: string;
  witness: string;
  name: string;
};

export const startImport = (id: string): ImportForm => ({
  id,
  text: "",
  dates: "",
  scale: "",
  words: {},
  control: "",
  witness: "",
  name: "",
});

export function wishesOf(form: ImportForm): TableReadingWishes {
  return {
    ...noReadingWishes,
    dates: dateOrder(form.dates),
    scale: rustScale(form.scale),
    words: wordPercents(form.words),
  };
}

const dateOrder = (typed: string): DateOrder | null => dateOrders.find((order) => order === typed) ?? null;
const rustScale = (typed: string): RustScale | null => rustScales.find((scale) => scale === typed) ?? null;

/** Only whole answers count: while one word has no percent, none is taken and the question stays. */
export function wordPercents(typed: Record<string, string>): Record<string, number> | null {
  const entries = Object.entries(typed).map(([word, percent]) => [word, typedNumber(percent)] as const);
  const read = entries.flatMap(([word, percent]) => (percent === null ? [] : [[word, percent] as const]));
  return read.length === 0 || read.length < entries.length ? null : Object.fromEntries(read);
}
