/** What was measured on photographs. A correction by hand is a further measurement that names the one it started from. */
import { isDeepStrictEqual } from "node:util";
import type { Kysely } from "kysely";
import type { Measurement } from "../api/photo.ts";
import { Conflict } from "./conflict.ts";
import type { Tables } from "./tables.ts";

export type MeasurementStore = {
  find(id: string): Promise<Measurement | null>;
  findAll(ids: readonly string[]): Promise<Measurement[]>;
  add(measurement: Measurement): Promise<Measurement>;
};

/** Well below what any database takes as parameters of one statement. */
const atOnce = 500;

export function measurementStore(db: Kysely<Tables>): MeasurementStore {
  const findAll = async (ids: readonly string[]) => {
    const found: Measurement[] = [];
    for (let at = 0; at < ids.length; at += atOnce) {
      const rows = await db
        .selectFrom("measurement")
        .select("body")
        .where("id", "in", ids.slice(at, at + atOnce))
        .orderBy("measured_at")
        .orderBy("id")
        .execute();
      found.push(...rows.map((row): Measurement => JSON.parse(row.body)));
    }
    return found;
  };
  return {
    findAll,
    find: async (id) => (await findAll([id]))[0] ?? null,
    async add(measurement) {
      const [known] = await findAll([measurement.id]);
      if (known) {
        if (isDeepStrictEqual({ ...known, measuredAt: null }, { ...measurement, measuredAt: null })) return known;
        throw new Conflict("id", measurement.id, "another measurement has it");
      }
      await db
        .insertInto("measurement")
        .values({
          id: measurement.id,
          photo: measurement.request.photo,
          measured_at: measurement.measuredAt,
          body: JSON.stringify(measurement),
        })
        .execute();
      return measurement;
    },
  };
}
