/** A shop's folder, opened: `shop.db`, `photos/`, and a lock that one server at a time holds. */
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { type DeviceStore, deviceStore } from "./device-store.ts";
import { type EyeTestStore, eyeTestStore } from "./eye-test-store.ts";
import { type MeasurementStore, measurementStore } from "./measurement-store.ts";
import { migrate } from "./migrations.ts";
import { openDatabase, takeLock } from "./open-database.ts";
import { clearIncoming, isThere, photoFiles } from "./photo-files.ts";
import { type PhotoStore, photoStore } from "./photo-store.ts";
import { type ReadingStore, readingStore } from "./reading-store.ts";
import { type RustModelStore, rustModelStore } from "./rust-model-store.ts";
import { type SettingStore, settingStore } from "./setting-store.ts";
import { type TrialStore, trialStore } from "./trial-store.ts";
import { type UploadFiles, uploadFiles } from "./upload-files.ts";

export type ShopStore = {
  dir: string;
  settings: SettingStore;
  rustModels: RustModelStore;
  eyeTests: EyeTestStore;
  trials: TrialStore;
  photos: PhotoStore;
  uploads: UploadFiles;
  measurements: MeasurementStore;
  readings: ReadingStore;
  devices: DeviceStore;
  close(): Promise<void>;
};

/** Somebody else has the shop open. */
export class ShopInUse extends Error {}

/** No shop lies there. */
export class NoShop extends Error {}

/** Opens the shop in that folder; makes an empty one where there is none. */
export async function openShop(dir: string): Promise<ShopStore> {
  await mkdir(dir, { recursive: true });
  const lock = await takeLock(join(dir, "lock.db"));
  if (!lock)
    throw new ShopInUse(
      `The shop in ${dir} is open in another Coatwright. Close that one first, or name another folder with --shop.`,
    );
  return openWith(dir, lock);
}

/** Opens a shop only to read it, also while a server has it open: SQLite lets readers in beside the one that writes. */
export async function readShop(dir: string): Promise<ShopStore> {
  if (!(await isThere(join(dir, "shop.db"))))
    throw new NoShop(`${dir} holds no shop; expected a folder with shop.db in it (--shop names another)`);
  return openWith(dir, await takeLock(join(dir, "lock.db")));
}

async function openWith(dir: string, lock: Awaited<ReturnType<typeof takeLock>>): Promise<ShopStore> {
  try {
    if (lock) await clearIncoming(join(dir, "photos"));
    const db = await openDatabase(join(dir, "shop.db"));
    try {
      // Without the lock somebody else has the shop open, and has brought it to its newest form already.
      if (lock) await migrate(db);
    } catch (error) {
      await db.destroy();
      throw error;
    }
    return {
      dir,
      settings: settingStore(db),
      rustModels: rustModelStore(db),
      eyeTests: eyeTestStore(db),
      trials: trialStore(db),
      photos: photoStore(db, photoFiles(join(dir, "photos"))),
      uploads: uploadFiles(join(dir, "uploads")),
      measurements: measurementStore(db),
      readings: readingStore(db),
      devices: deviceStore(db),
      async close() {
        await db.destroy();
        lock?.release();
      },
    };
  } catch (error) {
    lock?.release();
    throw error;
  }
}
