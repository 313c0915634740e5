/** Options that say how a plain table is to be read: the same for `findings` and `import`. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { dateOrders } from "../api/plain-table-date.ts";
import { type ValueKind, valueKinds } from "../core/trial/declared-question.ts";
import type { TableReadingWishes } from "../core/trial/plain-table.ts";
import { type ScaleName, scaleNames } from "../core/trial/scale-ends.ts";

export type TableOptions = {
  dates?: TableReadingWishes["dates"];
  from?: string;
  scale?: ScaleName;
  words?: Record<string, number>;
  response?: string;
  kind?: ValueKind;
  better?: "higher" | "lower";
  circumstance?: string[];
};

export function withTableOptions(command: Command): Command {
  return command
    .addOption(new Option("--dates <order>", "how dates that can be read two ways are meant").choices(dateOrders))
    .option("--from <date>", "day 0, when the coupons were put out (else the earliest date)")
    .addOption(new Option("--scale <name>", "scale of ratings, grades or tape classes").choices(scaleNames))
    .option("--words <list>", "percent for each word: none=0,edges=1,spots=3,all=50", wordPercents)
    .option("--response <name>", "looks: time, area or grade; values: what was measured")
    .addOption(new Option("--kind <kind>", "what kind of values").choices(valueKinds))
    .addOption(new Option("--better <way>", "which values are better").choices(["higher", "lower"]))
    .option("--circumstance <columns>", "columns that the difference could be confused with: a,b", nameList);
}

export function readingWishes(options: TableOptions): TableReadingWishes {
  return {
    dates: options.dates ?? null,
    from: options.from ?? null,
    scale: options.scale ?? null,
    words: options.words ?? null,
    response: options.response ?? null,
    kind: options.kind ?? null,
    better: options.better ?? null,
    circumstances: options.circumstance ?? [],
  };
}

export function numberOption(text: string): number {
  const number = Number(text);
  if (text.trim() === "" || !Number.isFinite(number)) throw new InvalidArgumentError("Expected a number.");
  return number;
}

export function wholeOption(text: string): number {
  if (!/^\d+$/.test(text)) throw new InvalidArgumentError("Expected a whole number of 0 or more.");
  return Number(text);
}

/** May be given several times; names may hold spaces, not commas. */
function nameList(text: string, before: string[] | undefined): string[] {
  const names = text.split(",").map((name) => name.trim());
  if (names.some((name) => name === "")) throw new InvalidArgumentError("Expected names of columns: a,b.");
  return [...(before ?? []), ...names];
}

function wordPercents(text: string): Record<string, number> {
  const pairs = text.split(",").map((pair) => {
    const [word, percent, ...more] = pair.split("=").map((part) => part.trim());
    const number = Number(percent);
    if (!word || !percent || more.length > 0 || !(number >= 0 && number <= 100))
      throw new InvalidArgumentError(`"${pair}": expected a word and its percent from 0 to 100, such as spots=3.`);
    return [word, number] as const;
  });
  return Object.fromEntries(pairs);
}
