/** What a plain table read of each coupon, as observations of a trial. */
import { InputError } from "../input-error.ts";
import { type TapeClass, tapeClasses } from "../rating/tape-classes.ts";
import {
  type LookRow,
  type LooksTable,
  type PlainTable,
  plainName,
  type TimesTable,
  type ValuesTable,
} from "./plain-table.ts";
import {
  type ClassLook,
  type ObservationBody,
  type PercentLook,
  type TakenDownReason,
  takenDownReasons,
} from "./trial-record.ts";

type Observed = { by: string; body: ObservationBody };
/** `by`: who takes the table over, where it names no inspector. */
type Judged = { blind: boolean; by: string };

/** Looks, times, strokes, tape classes or values, each under its inspector. A look that was missed is none. */
export function readingsOf(table: PlainTable, judged: Judged): Observed[] {
  if (table.kind === "looks") return looksOf(table, judged);
  return table.kind === "times" ? timesOf(table, judged) : valuesOf(table, judged);
}

function looksOf(table: LooksTable, judged: Judged): Observed[] {
  const faceOf = facesOf(table.rows);
  return table.rows.flatMap((row): Observed[] => {
    const by = row.inspector ?? judged.by;
    const seen: Observed[] =
      row.reading === null
        ? []
        : [
            {
              by,
              body: {
                kind: "look",
                coupon: row.coupon,
                face: faceOf(row.face),
                when: row.when,
                ...readOf(table, row.reading),
                edgePercent: row.edgePercent,
                how: "table",
                blind: judged.blind,
                measurement: null,
              },
            },
          ];
    return [...seen, ...takenDownOf(row, by)];
  });
}

function readOf(
  { scale }: LooksTable,
  reading: number,
): Pick<ClassLook, "rating" | "scale"> | Pick<PercentLook, "rustedPercent"> {
  return scale === null ? { rustedPercent: reading } : { rating: reading, scale };
}

function takenDownOf({ coupon, when, takenDown }: LookRow, by: string): Observed[] {
  if (takenDown === null) return [];
  const reason: TakenDownReason = takenDownReasons.find((known) => known === plainName(takenDown)) ?? "other";
  return [{ by, body: { kind: "taken down", coupon, when, reason, note: reason === "other" ? takenDown : "" } }];
}

/** A face in the spelling in which it appears first; without a name it is the front. */
function facesOf(rows: readonly LookRow[]): (face: string | null) => string {
  const spelling = new Map<string, string>([["front", "front"]]);
  for (const { face } of rows)
    if (face !== null && !spelling.has(plainName(face))) spelling.set(plainName(face), face.trim());
  return (face) => (face === null ? "front" : (spelling.get(plainName(face)) ?? face));
}

function timesOf({ unit, rows }: TimesTable, judged: Judged): Observed[] {
  return rows.map(({ coupon, left, right, inspector }): Observed => {
    const said = { coupon, blind: judged.blind, note: "" };
    return {
      by: inspector ?? judged.by,
      body:
        unit === "days"
          ? { kind: "first rust", ...said, leftDays: left, rightDays: right }
          : { kind: "wear test", ...said, place: null, when: null, leftStrokes: left, rightStrokes: right },
    };
  });
}

function valuesOf({ rows, response, tapeLetter }: ValuesTable, judged: Judged): Observed[] {
  return rows.map(({ coupon, value, inspector }): Observed => {
    const said = { coupon, when: null, blind: judged.blind, note: "" };
    return {
      by: inspector ?? judged.by,
      body:
        tapeLetter === null
          ? { kind: "value", ...said, name: response, value, how: "table" }
          : { kind: "tape test", ...said, tapeClass: tapeClassOf(`${value}${tapeLetter}`) },
    };
  });
}

function tapeClassOf(text: string): TapeClass {
  const known = tapeClasses.find((one) => one === text);
  if (!known) throw new InputError("value", text, "a tape class");
  return known;
}
