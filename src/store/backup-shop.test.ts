import { randomUUID } from "node:crypto";
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import { setImmediate } from "node:timers/promises";
import { describe, expect, onTestFinished, test } from "vitest";
import { look, shedPlan, written } from "../../tests/shed-trial.ts";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { backupShop } from "./backup-shop.ts";
import { openShop } from "./open-shop.ts";

const at = "2026-04-02T08:00:00.000Z";

async function servedShop() {
  const folder = await temporaryFolder();
  const [dir, to] = [join(folder, "shop"), join(folder, "backup")];
  const store = await openShop(dir);
  onTestFinished(() => store.close());
  const id = randomUUID();
  const plan = { ...written({ kind: "plan", plan: shedPlan }), recordedAt: at };
  await store.trials.start({ id, name: "shed", createdAt: at }, [plan]);
  const arrived = await store.photos.files.arrive(Readable.from([Buffer.from("a picture")]));
  const facts = { mediaType: "image/png", widthPx: 1, heightPx: 1, takenAt: null } as const;
  const photo = await store.photos.add(arrived, facts, at);
  return { folder, dir, to, store, id, photo };
}

describe("a backup", () => {
  test("of a running shop opens as a shop of its own", async () => {
    const { dir, to, store, id, photo } = await servedShop();
    expect(await backupShop({ dir, to })).toEqual({ to, trials: 1, observations: 1, photos: 1, bytes: 9 });
    expect((await readdir(to)).sort()).toEqual(["photos", "shop.db"]);
    const copy = await openShop(to);
    expect(await copy.trials.find(id)).toEqual(await store.trials.find(id));
    expect(await copy.photos.find(photo.hash)).toEqual(photo);
    await copy.close();
  });

  test("is whole while writes go on", async () => {
    const { dir, to, store, id } = await servedShop();
    let writing = true;
    const writes = (async () => {
      let count = 0;
      // Each write comes with its own turn of the event loop, as requests do.
      for (; writing; count++, await setImmediate())
        await store.trials.record(id, { ...written(look("1", "2026-04-02")), recordedAt: at }, () => {});
      return count;
    })();
    const made = await backupShop({ dir, to });
    writing = false;
    const all = 1 + (await writes);
    expect(made.observations).toBeGreaterThan(0);
    expect(made.observations).toBeLessThanOrEqual(all);
    const copy = await openShop(to);
    // A backup is one moment of the shop: its first observations, none missing between.
    const [kept, shop] = [await copy.trials.find(id), await store.trials.find(id)];
    expect(kept?.observations).toEqual(shop?.observations.slice(0, made.observations));
    await copy.close();
  });

  test.each([
    ["a picture whose bytes changed", (path: string) => writeFile(path, "A picture"), /is damaged: its content is not/],
    ["a picture that is gone", (path: string) => rm(path), /is missing, no backup was made/],
  ])("is not made of a shop with %s", async (_what, spoil, message) => {
    const { folder, dir, to, store, photo } = await servedShop();
    await spoil(store.photos.files.pathOf(photo));
    await expect(backupShop({ dir, to })).rejects.toThrow(message);
    expect((await readdir(folder)).sort()).toEqual(["shop"]);
  });

  test("takes nothing along that lets a device in, and is not shared because the shop was", async () => {
    const { dir, to, store } = await servedShop();
    const token = {
      id: randomUUID(),
      name: "Ada's phone by the tank",
      role: "owner",
      site: null,
      way: "plain",
    } as const;
    await store.devices.add({ ...token, tokenSha256: "5eed".repeat(16) }, at);
    await store.settings.share({ on: true, way: "plain" }, at);
    await store.settings.knowAddress("192.168.77.5", at);
    await mkdir(join(dir, "network"));
    await writeFile(join(dir, "network", "authority-key.pem"), "a key");
    await backupShop({ dir, to });
    const bytes = await readFile(join(to, "shop.db"), "latin1");
    expect(await readFile(join(dir, "shop.db-wal"), "latin1")).toContain("5eed5eed");
    for (const trace of ["5eed5eed", "phone by the tank", "192.168.77.5", token.id]) expect(bytes).not.toContain(trace);
    expect((await readdir(to, { recursive: true })).filter((name) => /network|key|pem/.test(name))).toEqual([]);
    const copy = await openShop(to);
    expect([await copy.devices.all(), await copy.settings.sharing()]).toEqual([[], null]);
    await copy.close();
  });

  test("never writes over what is there", async () => {
    const { dir, to } = await servedShop();
    await mkdir(to);
    await writeFile(join(to, "letters.txt"), "mine");
    await expect(backupShop({ dir, to })).rejects.toThrow(/is not empty; expected a new or empty folder/);
    expect(await readdir(to)).toEqual(["letters.txt"]);
  });

  test("of a folder without a shop is refused", async () => {
    const folder = await temporaryFolder();
    await expect(backupShop({ dir: folder, to: join(folder, "to") })).rejects.toThrow(/holds no shop/);
  });
});
