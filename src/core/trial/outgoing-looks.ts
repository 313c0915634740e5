/** The looks of a stored trial as rows of a plain table. */
import { exposureDay } from "./exposure-days.ts";
import { isWorse, scaleEnds } from "./scale-ends.ts";
import { takenDownWords } from "./trial-look-series.ts";
import { readingOf, trialReadings } from "./trial-readings.ts";
import type { TrialRecord } from "./trial-record.ts";

export type OutgoingLook = {
  day: number;
  face: string | null;
  /** A percent or a class, as the whole table reads. */
  reading: number | null;
  edgePercent: number | null;
  takenDown: string | null;
};

/** `reading`: the header of what was read; `flags`: how `findings` is to read it. Days from the start of exposure. */
export function outgoingLooks(record: TrialRecord): {
  reading: "rusted_percent" | "rating";
  rowsOf: (coupon: string) => OutgoingLook[];
  flags: string[];
} {
  const readings = trialReadings(record);
  if (readings.by === "percent")
    return { reading: "rusted_percent", rowsOf: (coupon) => lookRows(record, coupon, (a, b) => a > b), flags: [] };
  const ends = scaleEnds[readings.scale];
  return {
    reading: "rating",
    rowsOf: (coupon) => lookRows(record, coupon, (a, b) => isWorse(a, b, ends)),
    flags: ["--scale", readings.scale],
  };
}

/** One row for a coupon, face and day: where a face was read twice, the worse reading, which is the one that counts. */
function lookRows(record: TrialRecord, coupon: string, worse: (a: number, b: number) => boolean): OutgoingLook[] {
  const rows = new Map<string, OutgoingLook & { reading: number }>();
  for (const { body } of record.looks) {
    const day = body.coupon === coupon ? exposureDay(record, coupon, body.when) : null;
    if (day === null) continue;
    const key = `${day} ${body.face}`;
    const reading = readingOf(body);
    const other = rows.get(key);
    if (other && !worse(reading, other.reading)) continue;
    rows.set(key, { day, face: body.face, reading, edgePercent: body.edgePercent, takenDown: null });
  }
  const inOrder: OutgoingLook[] = [...rows.values()].sort((a, b) => a.day - b.day);
  const down = record.takenDown.find(({ body }) => body.coupon === coupon)?.body;
  const downDay = down ? exposureDay(record, coupon, down.when) : null;
  if (!down || downDay === null) return inOrder;
  const takenDown = takenDownWords(down);
  const last = inOrder.findLast((look) => look.day === downDay);
  if (!last) return [...inOrder, { day: downDay, face: null, reading: null, edgePercent: null, takenDown }];
  return inOrder.map((look) => (look === last ? { ...look, takenDown } : look));
}
