/** A device whose store runs full, in a real browser with a quota: said before a photograph is lost, and none is lost unsaid. */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { describe, expect, test } from "vitest";
import { builtServer, foundBrowser, phone } from "./page-browser.ts";
import { photoTrial } from "./photo-trial.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const megabyte = 1_000_000;

describe.runIf(foundBrowser.advice === null)("a device with hardly any room", () => {
  test("says so while a photograph still fits, and says which one did not", { timeout: 60_000 }, async () => {
    const folder = await temporaryFolder();
    const server = await builtServer(await temporaryFolder());
    const { id } = await photoTrial(server.url);
    // A store on disk: in a private window photographs already kept are not counted.
    const context = await chromium.launchPersistentContext(join(folder, "browser"), {
      ...{
        executablePath: foundBrowser.path!,
        args: ["--no-sandbox", "--disable-gpu"],
        colorScheme: phone.colorScheme,
      },
      viewport: { width: phone.width, height: phone.height },
    });
    const page = await context.newPage();
    page.setDefaultTimeout(15_000);
    const devtools = await context.newCDPSession(page);
    const { origin } = new URL(server.url);
    const setQuota = (quotaSize: number) => devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize });
    const take = async (name: string, bytes: number) => {
      const path = join(folder, name);
      await writeFile(path, Buffer.alloc(bytes, "\xff\xd8\xff"));
      await page.locator('input[type="file"]').first().setInputFiles(path);
    };
    const waiting = (many: number) => page.getByRole("link", { name: `${many} waiting` }).waitFor();
    const hardlyAnyRoom = page.getByText("This device has hardly any room left");

    // Less than the room that the page sets aside; the browser itself goes on telling of gigabytes.
    await setQuota(30 * megabyte);
    await page.goto(`${server.url}trials/${id}/inspect/1`);
    await page.getByText("Take a photograph").waitFor();
    await hardlyAnyRoom.waitFor();
    await page.screenshot({ path: join("test-artefacts", "390-nearly-full.png") });
    await server.close();
    await take("1.jpg", megabyte);
    await waiting(1);
    await page.getByRole("button", { name: "Later" }).click();
    await take("2.jpg", 40 * megabyte);
    await page.getByText("This device's store is full").waitFor();
    await page.screenshot({ path: join("test-artefacts", "390-store-full.png") });
    expect(await page.getByRole("link", { name: "1 waiting" }).count(), "what was kept stays").toBe(1);

    // Room again: it is set aside, and not complained of.
    await setQuota(70 * megabyte);
    await take("2.jpg", megabyte);
    await waiting(2);
    await hardlyAnyRoom.waitFor({ state: "detached" });
    // Full from one photograph to the next: it takes the place that was set aside, and that is said.
    await page.getByRole("button", { name: "Later" }).click();
    await take("3.jpg", 46 * megabyte);
    await waiting(3);
    await hardlyAnyRoom.waitFor();
    await context.close();
  });
});
