/** What was decided once for the whole shop. A new decision is a new row; the newest counts. */
import type { Kysely } from "kysely";
import type { SharingChoice } from "../api/sharing.ts";
import type { Shop } from "../api/shop.ts";
import type { Tables } from "./tables.ts";

export type SettingStore = {
  shop(): Promise<Shop>;
  prefer(preferences: NonNullable<Shop["preferences"]>, recordedAt: string): Promise<Shop>;
  /** What the printed card's ruler of 100 mm measures. */
  measureCardRuler(rulerMm: number, recordedAt: string): Promise<Shop>;
  /** What the balance resolves, mg. */
  weighOn(balanceMg: number, recordedAt: string): Promise<Shop>;
  /** Marks the shop as the demonstration: all in it is invented, for good. */
  declareInvented(recordedAt: string): Promise<Shop>;
  /** Whether and how the shop is shared on the local network; null: nobody chose yet. */
  sharing(): Promise<SharingChoice | null>;
  share(choice: SharingChoice, recordedAt: string): Promise<void>;
  /** The address under which devices were told to find this machine; null: none yet. */
  knownAddress(): Promise<string | null>;
  knowAddress(address: string, recordedAt: string): Promise<void>;
};

/** A copy of the shop is not shared because the shop was, nor where it was: these settings stay behind. */
export const sharingSetting = "sharing";
export const addressSetting = "known address";

export function settingStore(db: Kysely<Tables>): SettingStore {
  const shop = async (): Promise<Shop> => {
    const [preferences, cardRulerMm, balanceMg, invented] = await Promise.all(
      ["preferences", "card ruler mm", "balance mg", "invented"].map((name) => newest(db, name)),
    );
    return {
      preferences: preferences ? JSON.parse(preferences) : null,
      cardRulerMm: cardRulerMm ? JSON.parse(cardRulerMm) : null,
      balanceMg: balanceMg ? JSON.parse(balanceMg) : null,
      invented: invented === "true",
    };
  };
  const set = (name: string, value: unknown, recordedAt: string) => addSetting(db, name, () => value, recordedAt);
  return {
    shop,
    async prefer(preferences, recordedAt) {
      await set("preferences", preferences, recordedAt);
      return shop();
    },
    async measureCardRuler(rulerMm, recordedAt) {
      await set("card ruler mm", rulerMm, recordedAt);
      return shop();
    },
    async weighOn(balanceMg, recordedAt) {
      await set("balance mg", balanceMg, recordedAt);
      return shop();
    },
    async declareInvented(recordedAt) {
      await set("invented", true, recordedAt);
      return shop();
    },
    async sharing() {
      const chosen = await newest(db, sharingSetting);
      return chosen ? JSON.parse(chosen) : null;
    },
    async share(choice, recordedAt) {
      await set(sharingSetting, choice, recordedAt);
    },
    async knownAddress() {
      const known = await newest(db, addressSetting);
      return known ? JSON.parse(known) : null;
    },
    async knowAddress(address, recordedAt) {
      await set(addressSetting, address, recordedAt);
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

/** All that was ever set under the name, oldest first. */
export async function settingsNamed<Value>(db: Kysely<Tables>, name: string): Promise<Value[]> {
  const rows = await db.selectFrom("setting").select("value").where("name", "=", name).orderBy("position").execute();
  return rows.map((row): Value => JSON.parse(row.value));
}

/** Sets what `value` makes of all that was set under the name before; gives it back. */
export function addSetting<Value>(
  db: Kysely<Tables>,
  name: string,
  value: (before: Value[]) => Value,
  recordedAt: string,
): Promise<Value> {
  return db.transaction().execute(async (within) => {
    const last = await within
      .selectFrom("setting")
      .select("position")
      .orderBy("position", "desc")
      .limit(1)
      .executeTakeFirst();
    const position = (last?.position ?? 0) + 1;
    const now = value(await settingsNamed<Value>(within, name));
    await within
      .insertInto("setting")
      .values({ position, name, value: JSON.stringify(now), recorded_at: recordedAt })
      .execute();
    return now;
  });
}
