import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { sharedShop } from "../../../tests/network-side.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import { shedDraft } from "../../../tests/test-server.ts";
import { backupShop } from "../../store/backup-shop.ts";
import { codeLastsMs, codeTries, pairingDesk } from "./pairing-desk.ts";

const at = (seconds: number) => new Date(Date.UTC(2026, 3, 1) + seconds * 1000);

describe("a pairing code", () => {
  test("is eight letters and figures that nobody mistakes for others, new each time", () => {
    const desk = pairingDesk(() => at(0));
    const codes = Array.from({ length: 200 }, () => desk.open("helper").code);
    for (const code of codes) expect(code).toMatch(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/);
    expect(new Set(codes).size).toBe(200);
  });

  test("lets one device in, however it is typed", () => {
    const desk = pairingDesk(() => at(0));
    const { code } = desk.open("viewer");
    expect(desk.try(` ${code.toLowerCase().replace("-", " ")} `)).toBe("viewer");
    expect(desk.try(code)).toBe("no code");
  });

  test("is void after five minutes", () => {
    let now = at(0);
    const desk = pairingDesk(() => now);
    const { code, expiresAt } = desk.open("helper");
    expect(expiresAt).toBe(at(300).toISOString());
    now = at(codeLastsMs / 1000);
    expect(desk.try(code)).toBe("no code");
    expect(desk.standing()).toBeNull();
  });

  test("is void after five wrong tries, also for who then has it right", () => {
    const desk = pairingDesk(() => at(0));
    const { code } = desk.open("helper");
    const said = Array.from({ length: codeTries }, () => desk.try("AAAA-AAAA"));
    expect(said).toEqual(["wrong", "wrong", "wrong", "wrong", "locked"]);
    expect(desk.try(code)).toBe("no code");
  });

  test("is void once there is a newer one", () => {
    const desk = pairingDesk(() => at(0));
    const { code } = desk.open("owner");
    desk.open("viewer");
    expect(desk.try(code)).toBe("wrong");
  });

  test.each(["", "A", "A".repeat(60), "ABCD-EFGH\u0000"])("is not %j", (typed) => {
    const desk = pairingDesk(() => at(0));
    desk.open("helper");
    expect(desk.try(typed)).toBe("wrong");
  });
});

describe("pairing over the network", () => {
  const guess = async ({ there, address }: Awaited<ReturnType<typeof sharedShop>>, code: string) =>
    there("/api/pairing", { method: "POST", body: { code, name: "stranger" }, headers: { origin: address().origin } });

  test("without a code that is open, nobody gets in", async () => {
    const shop = await sharedShop();
    expect(await guess(shop, "ABCD-EFGH")).toMatchObject({
      status: 403,
      text: expect.stringMatching(/no code is open/),
    });
  });

  test("guessing ends the code, and the owner sees how many tries are left", async () => {
    const shop = await sharedShop();
    const { code } = JSON.parse((await shop.here("/api/pairing/code", { method: "POST" })).text);
    for (let wrong = 1; wrong < codeTries; wrong++) expect((await guess(shop, "AAAA-AAAA")).status).toBe(403);
    expect(JSON.parse((await shop.here("/api/sharing")).text).pairing).toMatchObject({ triesLeft: 1, role: "helper" });
    expect((await guess(shop, "AAAA-AAAA")).text).toMatch(/one wrong try too many/);
    expect((await guess(shop, code)).status).toBe(403);
    expect(JSON.parse((await shop.here("/api/devices")).text)).toEqual([]);
  });

  test("too many tries a minute are not even looked at", async () => {
    const shop = await sharedShop();
    const answers: number[] = [];
    for (let at = 0; at < 25; at++) answers.push((await guess(shop, "AAAA-AAAA")).status);
    expect(answers.slice(0, 20)).toEqual(Array.from({ length: 20 }, () => 403));
    expect(answers.slice(20)).toEqual(Array.from({ length: 5 }, () => 429));
  });

  test("the code never stands in an address that is sent, and an answer never in a cache", async () => {
    const shop = await sharedShop();
    const { text, headers } = await shop.here("/api/pairing/code", { method: "POST" });
    const { code, addresses } = JSON.parse(text);
    for (const address of addresses) expect(address).not.toContain(code);
    expect(headers["cache-control"]).toBe("no-store");
  });

  test("paired anew, a phone stays one device, and its old token is void", async () => {
    const shop = await sharedShop();
    const first = await shop.pair("viewer", "phone");
    const { code } = JSON.parse((await shop.here("/api/pairing/code", { method: "POST" })).text);
    const again = await first.as("/api/pairing", { method: "POST", body: { code, name: "phone" } });
    expect(again.status).toBe(201);
    expect((await first.as("/api/shop")).status).toBe(401);
    expect(JSON.parse((await shop.here("/api/devices")).text)).toMatchObject([{ name: "phone", role: "helper" }]);
  });

  test("a token or a code stands in no answer, no backup and no file but as its hash", async () => {
    const shop = await sharedShop({ way: "encrypted" });
    const { token, device, as } = await shop.pair("owner");
    const { code } = JSON.parse((await shop.here("/api/pairing/code", { method: "POST" })).text);
    const trial = { ...shedDraft, id: randomUUID() };
    expect((await as("/api/trials", { method: "POST", body: trial })).status).toBe(201);
    const reads = [
      "devices",
      "sharing",
      "me",
      "shop",
      "today",
      "trials",
      `trials/${trial.id}`,
      `trials/${trial.id}/report`,
    ];
    const answers = await Promise.all(reads.map(async (path) => (await as(`/api/${path}`)).text));
    expect(answers[0]).toContain(device.id);
    const to = join(await temporaryFolder(), "backup");
    await backupShop({ dir: shop.shopDir, to });
    const files = await bytesIn(shop.shopDir);
    expect(files).toContain(createHash("sha256").update(token).digest("hex"));
    for (const text of [...answers, files, await bytesIn(to)])
      for (const secret of [token, code, code.replace("-", "")]) expect(text).not.toContain(secret);
    for (const text of [...answers, await bytesIn(to)])
      expect(text).not.toMatch(/PRIVATE KEY|sha256[^"]*":"[0-9a-f]{64}/i);
  });
});

/** All that lies in a folder, one after the other. */
async function bytesIn(folder: string): Promise<string> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  return (await Promise.all(files.map((file) => readFile(join(file.parentPath, file.name), "latin1")))).join("\n");
}
