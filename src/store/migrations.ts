/** How a shop's database came to its present form, step by step. A step that has shipped is never edited. */
import { type Kysely, type Migration, Migrator } from "kysely";
import type { Tables } from "./tables.ts";

const steps: Record<string, Migration> = {
  "0001 shop": {
    async up(db: Kysely<unknown>) {
      await db.schema
        .createTable("setting")
        .addColumn("position", "integer", (column) => column.primaryKey())
        .addColumn("name", "text", (column) => column.notNull())
        .addColumn("value", "text", (column) => column.notNull())
        .addColumn("recorded_at", "text", (column) => column.notNull())
        .execute();
      await db.schema
        .createTable("trial")
        .addColumn("id", "text", (column) => column.primaryKey())
        .addColumn("name", "text", (column) => column.notNull())
        .addColumn("created_at", "text", (column) => column.notNull())
        .execute();
      await db.schema
        .createTable("observation")
        .addColumn("id", "text", (column) => column.primaryKey())
        .addColumn("trial", "text", (column) => column.notNull().references("trial.id"))
        .addColumn("position", "integer", (column) => column.notNull())
        .addColumn("recorded_at", "text", (column) => column.notNull())
        .addColumn("by", "text", (column) => column.notNull())
        // Unique: of two corrections of one observation that race each other, the second is refused by the database too.
        .addColumn("corrects", "text", (column) => column.unique().references("observation.id"))
        .addColumn("why", "text")
        .addColumn("kind", "text", (column) => column.notNull())
        .addColumn("body", "text", (column) => column.notNull())
        .addUniqueConstraint("observation_order", ["trial", "position"])
        .execute();
      await db.schema
        .createTable("photo")
        .addColumn("hash", "text", (column) => column.primaryKey())
        .addColumn("media_type", "text", (column) => column.notNull())
        .addColumn("bytes", "integer", (column) => column.notNull())
        .addColumn("width_px", "integer", (column) => column.notNull())
        .addColumn("height_px", "integer", (column) => column.notNull())
        .addColumn("taken_at", "text")
        .addColumn("added_at", "text", (column) => column.notNull())
        .execute();
      await db.schema
        .createTable("measurement")
        .addColumn("id", "text", (column) => column.primaryKey())
        .addColumn("photo", "text", (column) => column.notNull().references("photo.hash"))
        .addColumn("measured_at", "text", (column) => column.notNull())
        .addColumn("body", "text", (column) => column.notNull())
        .execute();
      await db.schema
        .createTable("reading")
        .addColumn("site", "text", (column) => column.notNull())
        .addColumn("at", "text", (column) => column.notNull())
        .addColumn("temp_c", "double precision", (column) => column.notNull())
        .addColumn("rh_percent", "double precision", (column) => column.notNull())
        .addPrimaryKeyConstraint("reading_when", ["site", "at"])
        .execute();
    },
  },
  "0002 devices": {
    async up(db: Kysely<unknown>) {
      await db.schema
        .createTable("device")
        .addColumn("id", "text", (column) => column.primaryKey())
        .addColumn("name", "text", (column) => column.notNull())
        .addColumn("role", "text", (column) => column.notNull())
        .addColumn("site", "text")
        .addColumn("token_sha256", "text", (column) => column.unique())
        .addColumn("paired_at", "text", (column) => column.notNull())
        .addColumn("last_seen_at", "text")
        .addColumn("revoked_at", "text")
        .execute();
    },
  },
  "0003 how a device was let in": {
    async up(db: Kysely<unknown>) {
      await db.schema
        .alterTable("device")
        .addColumn("way", "text", (column) => column.notNull().defaultTo("encrypted"))
        .execute();
    },
  },
  "0004 where and when an observation was written down": {
    async up(db: Kysely<unknown>) {
      await db.schema.alterTable("observation").addColumn("device", "text").execute();
      await db.schema.alterTable("observation").addColumn("written", "text").execute();
    },
  },
};

/** Brings the database to the newest form. A step that fails leaves it as it was before. */
export async function migrate(db: Kysely<Tables>, wanted: Record<string, Migration> = steps): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: async () => wanted } });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}
