/** A shop's folder, opened: `shop.db`, `photos/`, and a lock that one server at a time holds. */
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { type MeasurementStore, measurementStore } from "./measurement-store.ts";
import { migrate } from "./migrations.ts";
import { openDatabase, takeLock } from "./open-database.ts";
import { photoFiles } from "./photo-files.ts";
import { type PhotoStore, photoStore } from "./photo-store.ts";
import { type ReadingStore, readingStore } from "./reading-store.ts";
import { type SettingStore, settingStore } from "./setting-store.ts";
import { type TrialStore, trialStore } from "./trial-store.ts";

export type ShopStore = {
  dir: string;
  settings: SettingStore;
  trials: TrialStore;
  photos: PhotoStore;
  measurements: MeasurementStore;
  readings: ReadingStore;
  close(): Promise<void>;
};

/** Somebody else has the shop open. */
export class ShopInUse extends Error {}

/** Opens the shop in that folder; makes an empty one where there is none. */
export async function openShop(dir: string): Promise<ShopStore> {
  await mkdir(dir, { recursive: true });
  const lock = await takeLock(join(dir, "lock.db"));
  if (!lock)
    throw new ShopInUse(
      `The shop in ${dir} is open in another Coatwright. Close that one first, or name another folder with --shop.`,
    );
  try {
    const files = await photoFiles(join(dir, "photos"));
    const db = await openDatabase(join(dir, "shop.db"));
    try {
      await migrate(db);
    } catch (error) {
      await db.destroy();
      throw error;
    }
    return {
      dir,
      settings: settingStore(db),
      trials: trialStore(db),
      photos: photoStore(db, files),
      measurements: measurementStore(db),
      readings: readingStore(db),
      async close() {
        await db.destroy();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw error;
  }
}
