/** What was decided once for the whole shop. A new decision is a new row; the newest counts. */
import type { Kysely } from "kysely";
import type { Shop } from "../api/shop.ts";
import type { Tables } from "./tables.ts";

export type SettingStore = {
  shop(): Promise<Shop>;
  prefer(preferences: NonNullable<Shop["preferences"]>, recordedAt: string): Promise<Shop>;
  /** Marks the shop as the demonstration: all in it is invented, for good. */
  declareInvented(recordedAt: string): Promise<Shop>;
};

export function settingStore(db: Kysely<Tables>): SettingStore {
  const shop = async (): Promise<Shop> => {
    const [preferences, invented] = await Promise.all([newest(db, "preferences"), newest(db, "invented")]);
    return {
      preferences: preferences === null ? null : JSON.parse(preferences),
      invented: invented === "true",
    };
  };
  const set = (name: string, value: unknown, recordedAt: string) =>
    db.transaction().execute(async (within) => {
      const last = await within
        .selectFrom("setting")
        .select("position")
        .orderBy("position", "desc")
        .limit(1)
        .executeTakeFirst();
      const position = (last?.position ?? 0) + 1;
      await within
        .insertInto("setting")
        .values({ position, name, value: JSON.stringify(value), recorded_at: recordedAt })
        .execute();
    });
  return {
    shop,
    async prefer(preferences, recordedAt) {
      await set("preferences", preferences, recordedAt);
      return shop();
    },
    async declareInvented(recordedAt) {
      await set("invented", true, recordedAt);
      return shop();
    },
  };
}

async function newest(db: Kysely<Tables>, name: string): Promise<string | null> {
  const row = await db
    .selectFrom("setting")
    .select("value")
    .where("name", "=", name)
    .orderBy("position", "desc")
    .limit(1)
    .executeTakeFirst();
  return row?.value ?? null;
}
