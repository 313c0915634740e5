/** What the demonstration's people wrote down, day by day, under ids that are the same on every machine. */
import { createHash } from "node:crypto";
import type { Observation, ObservationBody } from "../../core/trial/trial-record.ts";

export const demoAuthor = "the demonstration";

export type Diary = {
  pages: Observation[];
  write(date: string, body: ObservationBody, corrects?: Observation["corrects"]): void;
};

export function diaryOf(trial: string): Diary {
  const pages: Observation[] = [];
  return {
    pages,
    write(date, body, corrects = null) {
      pages.push({
        id: idOf(`${trial} page ${pages.length + 1}`),
        recordedAt: instantOf(date),
        by: demoAuthor,
        corrects,
        body,
      });
    },
  };
}

/** The same name has the same id on every machine: a UUID of the free form (RFC 9562, version 8) from its hash. */
export function idOf(name: string): string {
  const hex = createHash("sha256").update(name).digest("hex");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-a${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}

const dayMs = 86_400_000;
export const dateAfter = (date: string, days: number) =>
  new Date(Date.parse(date) + days * dayMs).toISOString().slice(0, 10);
export const dateBefore = (date: string, days: number) => dateAfter(date, -days);
export const instantOf = (date: string) => `${date}T09:00:00.000Z`;
