/** The browser's own database on this device: what waits to be sent, and what was thrown away unsent. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { newId } from "../shop/new-id.ts";
import type { DroppedItem, WaitingItem } from "./waiting-item.ts";

interface DeviceSchema extends DBSchema {
  /** The key counts up: the order of writing down, whatever the device's clock does. */
  waiting: { key: number; value: WaitingItem; indexes: { "by id": string } };
  dropped: { key: number; value: DroppedItem };
  /** Room set aside: nothing but its size matters. */
  reserve: { key: string; value: Blob };
  /** Of the first version: photographs alone, each under the name of its inspection. */
  "waiting photos": { key: string; value: Blob };
}
type DeviceDatabase = IDBPDatabase<DeviceSchema>;

let opened: Promise<DeviceDatabase> | null = null;

export function deviceDatabase(): Promise<DeviceDatabase> {
  opened ??= open().catch((failure: unknown) => {
    opened = null;
    throw failure;
  });
  return opened;
}

function open(): Promise<DeviceDatabase> {
  return openDB<DeviceSchema>("coatwright", 3, {
    async upgrade(database, oldVersion, _newVersion, transaction) {
      database.createObjectStore("reserve");
      if (oldVersion === 2) return;
      const waiting = database.createObjectStore("waiting", { autoIncrement: true });
      waiting.createIndex("by id", "id", { unique: true });
      database.createObjectStore("dropped", { autoIncrement: true });
      if (oldVersion !== 1) return;
      let cursor = await transaction.objectStore("waiting photos").openCursor();
      for (; cursor; cursor = await cursor.continue()) {
        const kept = { id: newId(), writtenAt: new Date().toISOString(), refused: null };
        await waiting.add({ ...kept, kind: "photo", inspection: cursor.key, file: cursor.value });
      }
      database.deleteObjectStore("waiting photos");
    },
    // A newer page in another window wants to go on: this one opens again when it is asked next.
    blocking: forgetOpened,
    terminated: forgetOpened,
  });
}

function forgetOpened() {
  void opened?.then((database) => database.close());
  opened = null;
}
