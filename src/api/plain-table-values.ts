/** The `value` column: measured values, percents, classes, yes and no. One spelling of each in one table. */

import type { ValueKind } from "../core/trial/declared-question.ts";
import type { TableReadingWishes } from "../core/trial/plain-table.ts";
import { isClassOf, type ScaleEnds, scaleEnds, tapeScaleEnds } from "../core/trial/scale-ends.ts";
import { type RowCells, wanted } from "./plain-table-cells.ts";

export type ValueReading = {
  valueKind: ValueKind;
  better: "higher" | "lower";
  scale: ScaleEnds | null;
  tapeLetter: "A" | "B" | null;
  read: (cells: RowCells) => number | null;
};

/** How this table's values are read; the kind is the user's word, since a column of numbers does not say it. */
export function valueReading(
  kind: ValueKind,
  wishes: TableReadingWishes,
  valuesInTable: readonly string[],
): ValueReading {
  if (kind === "ordinal") return ordinalReading(wishes, valuesInTable);
  if (kind === "binary") return binaryReading(wishes, valuesInTable);
  const percent = kind === "area";
  return {
    valueKind: kind,
    better: wishes.better ?? "lower",
    scale: null,
    tapeLetter: null,
    read: (cells) => cells.number("value", percent ? wanted.percent : wanted.any),
  };
}

function ordinalReading(wishes: TableReadingWishes, valuesInTable: readonly string[]): ValueReading {
  const letters = valuesInTable.map((value) => value.match(/^[0-5]([AB])$/i)?.[1]?.toUpperCase());
  const letter = letters.includes("A") ? "A" : letters.includes("B") ? "B" : null;
  const ends = endsOf(wishes, letter);
  const low = Math.min(ends.best, ends.worst);
  const high = Math.max(ends.best, ends.worst);
  const suffix = letter ?? "";
  const expected = `a class ${high}${suffix} to ${low}${suffix}, one kind in the whole table`;
  return {
    valueKind: "ordinal",
    better: ends.best > ends.worst ? "higher" : "lower",
    scale: ends,
    tapeLetter: letter,
    read: (cells) => {
      const text = cells.text("value");
      if (text === null) return null;
      const spelt = text.toUpperCase();
      const digits = letter === null ? spelt : spelt.endsWith(letter) ? spelt.slice(0, -1) : "";
      const value = /^\d+$/.test(digits) ? Number(digits) : Number.NaN;
      if (isClassOf(value, ends)) return value;
      cells.problem("value", text, expected);
      return null;
    },
  };
}

function endsOf({ scale, better }: TableReadingWishes, letter: "A" | "B" | null): ScaleEnds {
  if (scale !== null) return scaleEnds[scale];
  // 5A and 5B say themselves that 5 is the best; a bare number follows the user's word.
  if (letter === null && better === "lower") return { best: tapeScaleEnds.worst, worst: tapeScaleEnds.best };
  return tapeScaleEnds;
}

/** Good first. Of pass and good the meaning is plain; whether "yes" is good is the user's to say. */
const binaryWords = [
  { good: "yes", bad: "no", turns: true },
  { good: "1", bad: "0", turns: true },
  { good: "pass", bad: "fail", turns: false },
  { good: "good", bad: "bad", turns: false },
] as const;

function binaryReading(wishes: TableReadingWishes, valuesInTable: readonly string[]): ValueReading {
  const used = new Set(valuesInTable.map((value) => value.toLowerCase()));
  const pair = binaryWords.find(({ good, bad }) => used.has(good) || used.has(bad)) ?? binaryWords[0];
  const turned = pair.turns && wishes.better === "lower";
  return {
    valueKind: "binary",
    better: "higher",
    scale: null,
    tapeLetter: null,
    read: (cells) => {
      const text = cells.text("value");
      const word = text?.toLowerCase() ?? null;
      if (word === pair.good) return turned ? 0 : 1;
      if (word === pair.bad) return turned ? 1 : 0;
      if (text !== null)
        cells.problem("value", text, "yes or no, 1 or 0, pass or fail, good or bad; one pair in the whole table");
      return null;
    },
  };
}
