import { readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import { type Kysely, sql } from "kysely";
import { describe, expect, test } from "vitest";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { migrate } from "./migrations.ts";
import { openDatabase } from "./open-database.ts";
import { NoShop, openShop, readShop, ShopInUse } from "./open-shop.ts";
import { hashOfFile } from "./photo-files.ts";

const at = "2026-04-02T08:00:00.000Z";

describe("a shop's folder", () => {
  test("everything survives a restart", async () => {
    const dir = join(await temporaryFolder(), "not", "there", "yet");
    const first = await openShop(dir);
    await first.settings.prefer({ temp: "°F", length: "in", mass: "oz" }, at);
    await first.settings.declareInvented(at);
    await first.close();
    const again = await openShop(dir);
    expect(await again.settings.shop()).toEqual({
      preferences: { temp: "°F", length: "in", mass: "oz" },
      cardRulerMm: null,
      balanceMg: null,
      invented: true,
    });
    await again.close();
  });

  test("nobody chose yet is said; the newest choice counts", async () => {
    const store = await openShop(await temporaryFolder());
    expect(await store.settings.shop()).toEqual({
      preferences: null,
      cardRulerMm: null,
      balanceMg: null,
      invented: false,
    });
    await store.settings.prefer({ temp: "°F", length: "in", mass: "oz" }, at);
    const shop = await store.settings.prefer({ temp: "°C", length: "mm", mass: "g" }, at);
    expect(shop.preferences).toEqual({ temp: "°C", length: "mm", mass: "g" });
    await store.close();
  });

  test("a second server is refused in words, and welcome when the first has gone", async () => {
    const dir = await temporaryFolder();
    const first = await openShop(dir);
    const second = openShop(dir);
    await expect(second).rejects.toThrow(ShopInUse);
    await expect(second).rejects.toThrow(/is open in another Coatwright/);
    await first.close();
    await (await openShop(dir)).close();
  });

  test("a reader is let in beside a server, and disturbs nothing that it is receiving", async () => {
    const dir = await temporaryFolder();
    const server = await openShop(dir);
    await server.settings.declareInvented(at);
    const arrived = await server.photos.files.arrive(Readable.from([Buffer.from("half")]));
    const reader = await readShop(dir);
    expect((await reader.settings.shop()).invented).toBe(true);
    await reader.close();
    expect(await hashOfFile(arrived.path)).toBe(arrived.hash);
    await server.close();
  });

  test("there is nothing to read where no shop lies", async () => {
    await expect(readShop(await temporaryFolder())).rejects.toThrow(NoShop);
  });

  test("a shop that cannot be opened gives its lock back", async () => {
    const dir = await temporaryFolder();
    await writeFile(join(dir, "shop.db"), "this is not a database, whatever its name says".repeat(50));
    await expect(openShop(dir)).rejects.toThrow(/not a database/);
    await rm(join(dir, "shop.db"));
    await (await openShop(dir)).close();
  });

  test("commits reach the disk before they are answered", async () => {
    const db = await openDatabase(join(await temporaryFolder(), "shop.db"));
    const [journal] = (await sql<{ journal_mode: string }>`pragma journal_mode`.execute(db)).rows;
    const [synchronous] = (await sql<{ synchronous: number }>`pragma synchronous`.execute(db)).rows;
    expect({ ...journal, ...synchronous }).toEqual({ journal_mode: "wal", synchronous: 2 });
    await db.destroy();
  });

  test("a migration that fails half-way leaves nothing half-made", async () => {
    const db = await openDatabase(join(await temporaryFolder(), "shop.db"));
    const broken = {
      "0001 broken": {
        async up(within: Kysely<unknown>) {
          await within.schema.createTable("half").addColumn("id", "text").execute();
          throw new Error("the power went");
        },
      },
    };
    await expect(migrate(db, broken)).rejects.toThrow("the power went");
    expect((await db.introspection.getTables()).map((table) => table.name)).not.toContain("half");
    await db.destroy();
  });
});

describe("photographs", () => {
  const facts = { mediaType: "image/jpeg", widthPx: 4, heightPx: 3, takenAt: null } as const;

  test("lie under the hash of their content, once, however often they come", async () => {
    const store = await openShop(await temporaryFolder());
    for (const _ of [1, 2]) {
      const arrived = await store.photos.files.arrive(
        Readable.from([Buffer.from("not really "), Buffer.from("a JPEG")]),
      );
      const photo = await store.photos.add(arrived, facts, at);
      expect(photo).toEqual({ ...facts, hash: arrived.hash, bytes: 17 });
      expect(await hashOfFile(store.photos.files.pathOf(photo))).toBe(photo.hash);
      expect(await store.photos.find(photo.hash)).toEqual(photo);
    }
    expect(await readdir(join(store.dir, "photos", "incoming"))).toEqual([]);
    await store.close();
  });

  test("a stream that breaks off leaves nothing", async () => {
    const store = await openShop(await temporaryFolder());
    const broken = Readable.from(
      (async function* () {
        yield Buffer.from("half a pic");
        throw new Error("the phone left the shed");
      })(),
    );
    await expect(store.photos.files.arrive(broken)).rejects.toThrow("the phone left the shed");
    expect(await readdir(join(store.dir, "photos", "incoming"))).toEqual([]);
    await store.close();
  });

  test("what a killed server was still receiving is cleared away", async () => {
    const dir = await temporaryFolder();
    await (await openShop(dir)).close();
    await writeFile(join(dir, "photos", "incoming", "half"), "half");
    await (await openShop(dir)).close();
    expect(await readdir(join(dir, "photos", "incoming"))).toEqual([]);
  });
});

describe("readings", () => {
  const reading = (time: string, tempC: number) => ({ site: "roof", at: time, tempC, rhPercent: 80 });

  test("one moment in two spellings is one reading, and the first counts", async () => {
    const store = await openShop(await temporaryFolder());
    expect(await store.readings.add([reading("2026-04-01T10:00:00Z", 8)])).toBe(1);
    expect(
      await store.readings.add([reading("2026-04-01T12:00:00+02:00", 9), reading("2026-04-01T11:00:00Z", 10)]),
    ).toBe(1);
    const day = { from: "2026-04-01T00:00:00Z", to: "2026-04-02T00:00:00Z" };
    expect((await store.readings.between("roof", day)).map((one) => one.tempC)).toEqual([8, 10]);
    expect(await store.readings.between("cellar", day)).toEqual([]);
    await store.close();
  });

  test("the end of a span is not in it", async () => {
    const store = await openShop(await temporaryFolder());
    await store.readings.add([reading("2026-04-01T10:00:00Z", 8), reading("2026-04-01T11:00:00Z", 9)]);
    const hour = { from: "2026-04-01T10:00:00Z", to: "2026-04-01T11:00:00Z" };
    expect((await store.readings.between("roof", hour)).map((one) => one.tempC)).toEqual([8]);
    await store.close();
  });

  test("a season of ten-minute readings goes in at once", async () => {
    const store = await openShop(await temporaryFolder());
    const start = Date.parse("2026-01-01T00:00:00Z");
    const many = Array.from({ length: 13_000 }, (_, n) => reading(new Date(start + n * 600_000).toISOString(), n % 30));
    expect(await store.readings.add(many)).toBe(13_000);
    expect(await store.readings.add(many.slice(0, 100))).toBe(0);
    await store.close();
  });
});
