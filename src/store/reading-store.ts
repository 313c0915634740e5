/** What sensors said about a site. Of two readings for one moment the first counts (repeats are everyday). */
import type { Kysely } from "kysely";
import type { Reading } from "../api/shop.ts";
import type { Tables } from "./tables.ts";

export type ReadingStore = {
  /** Readings of a site from `from` to before `to` (UTC instants), in time's order. */
  between(site: string, span: { from: string; to: string }): Promise<Reading[]>;
  /** Sites of which there are readings, with the instant of the last one. */
  sites(): Promise<{ site: string; lastAt: string }[]>;
  /** How many were new. */
  add(readings: readonly Reading[]): Promise<number>;
};

/** Four values each, well below what any database takes as parameters of one statement. */
const atOnce = 500;

export function readingStore(db: Kysely<Tables>): ReadingStore {
  return {
    async between(site, { from, to }) {
      const rows = await db
        .selectFrom("reading")
        .selectAll()
        .where("site", "=", site)
        .where("at", ">=", inUtc(from))
        .where("at", "<", inUtc(to))
        .orderBy("at")
        .execute();
      return rows.map((row) => ({ site: row.site, at: row.at, tempC: row.temp_c, rhPercent: row.rh_percent }));
    },

    sites: () =>
      db
        .selectFrom("reading")
        .select(({ fn }) => ["site", fn.max("at").as("lastAt")])
        .groupBy("site")
        .orderBy("site")
        .execute(),

    add: (readings) =>
      db.transaction().execute(async (within) => {
        let added = 0;
        for (let at = 0; at < readings.length; at += atOnce) {
          const rows = readings.slice(at, at + atOnce).map((one) => ({
            site: one.site,
            at: inUtc(one.at),
            temp_c: one.tempC,
            rh_percent: one.rhPercent,
          }));
          const result = await within
            .insertInto("reading")
            .values(rows)
            .onConflict((same) => same.columns(["site", "at"]).doNothing())
            .executeTakeFirst();
          added += Number(result.numInsertedOrUpdatedRows ?? 0);
        }
        return added;
      }),
  };
}

/** One way of writing a moment, so that equal moments are equal text. */
function inUtc(instant: string): string {
  return new Date(instant).toISOString();
}
