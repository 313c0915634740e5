/** The devices that are let in over the network. What is kept of a token is its hash: who reads it gets in nowhere. */
import type { Kysely, Selectable } from "kysely";
import { type Device, role, sharingWay } from "../api/sharing.ts";
import type { DeviceRow, Tables } from "./tables.ts";

export type NewDevice = Pick<Device, "id" | "name" | "role" | "site" | "way"> & { tokenSha256: string };

export type DeviceStore = {
  add(device: NewDevice, pairedAt: string): Promise<Device>;
  /** Those that are let in, the newest first. */
  all(): Promise<Device[]>;
  byToken(tokenSha256: string): Promise<Device | null>;
  seen(id: string, at: string): Promise<void>;
  /** From now on its token opens nothing. Null: no such device is let in. */
  revoke(id: string, at: string): Promise<Device | null>;
};

export function deviceStore(db: Kysely<Tables>): DeviceStore {
  const letIn = () => db.selectFrom("device").selectAll().where("token_sha256", "is not", null);
  return {
    async add({ tokenSha256, ...device }, pairedAt) {
      const row = { ...device, token_sha256: tokenSha256, paired_at: pairedAt, last_seen_at: null, revoked_at: null };
      await db.insertInto("device").values(row).execute();
      return deviceOf(row);
    },
    all: async () => (await letIn().orderBy("paired_at", "desc").orderBy("id").execute()).map(deviceOf),
    async byToken(tokenSha256) {
      const row = await letIn().where("token_sha256", "=", tokenSha256).executeTakeFirst();
      return row ? deviceOf(row) : null;
    },
    async seen(id, at) {
      await db.updateTable("device").set({ last_seen_at: at }).where("id", "=", id).execute();
    },
    async revoke(id, at) {
      const row = await letIn().where("id", "=", id).executeTakeFirst();
      if (!row) return null;
      await db.updateTable("device").set({ token_sha256: null, revoked_at: at }).where("id", "=", id).execute();
      return deviceOf(row);
    },
  };
}

function deviceOf(row: Selectable<DeviceRow>): Device {
  return {
    id: row.id,
    name: row.name,
    role: role.parse(row.role),
    site: row.site,
    way: sharingWay.parse(row.way),
    pairedAt: row.paired_at,
    lastSeenAt: row.last_seen_at,
  };
}
