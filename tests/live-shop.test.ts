/**
 * One shop on two screens: what is written down on one stands on the other within a moment, a server that is killed and
 * started again is found again by both without a hand, and a device that is sent away hears nothing more.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";
import { describe, expect, onTestFinished, test } from "vitest";
import type { Device } from "../src/api/sharing.ts";
import { certify, openAuthority } from "../src/server/sharing/authority.ts";
import { keyHashAt } from "./key-hash.ts";
import { desk, foundBrowser, openBrowser, openPage, type Page, phone, root } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";

/** From the tap on one screen to the words on the other; the machine may be busy with other tests. */
const atOnceMs = 4000;

type Served = { url: string; address: string; child: ChildProcess };

/** In a process of its own, shared over TLS with a certificate that outlives it. */
async function serve(shopDir: string, ports: { port: number; share: number }): Promise<Served> {
  const files = { certFile: join(shopDir, "..", "own.crt"), keyFile: join(shopDir, "..", "own.key") };
  const share = { host: "127.0.0.1", port: ports.share, start: "encrypted", certificateFiles: files };
  const options = JSON.stringify({ shopDir, port: ports.port, share });
  const script = `
    import { startServer } from ${JSON.stringify(pathToFileURL(join(root, "dist", "node", "server", "start-server.js")).href)};
    const { url, sharing } = await startServer(${options});
    console.log(JSON.stringify({ url, address: sharing.state().addresses[0] }));`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", script], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  onTestFinished(() => void child.kill("SIGKILL"));
  const [said] = await once(createInterface({ input: child.stdout }), "line");
  return { ...JSON.parse(String(said)), child };
}

describe.runIf(foundBrowser.advice === null)("one shop on a desk and a phone", () => {
  test("is the same on both, also after the server was killed, until the phone is sent away", {
    timeout: 120_000,
  }, async () => {
    const folder = await temporaryFolder();
    const own = await certify(
      await openAuthority(folder, new Date()),
      { names: ["shed.local"], addresses: ["127.0.0.1"] },
      new Date(),
    );
    await writeFile(join(folder, "own.crt"), own.cert);
    await writeFile(join(folder, "own.key"), own.key);
    const ports = { port: await freePort(), share: await freePort() };
    const shopDir = join(folder, "shop");
    const first = await serve(shopDir, ports);
    const trial = await trialOutdoors(first.url);
    const address = `https://127.0.0.1:${ports.share}/`;

    const browser = await openBrowser(`--ignore-certificate-errors-spki-list=${await keyHashAt(address)}`);
    onTestFinished(() => browser.close());
    const [onDesk, onPhone] = [await openPage(browser, desk), await openPage(browser, phone)];
    await onPhone.page.goto(`${address}pair#${await codeAt(first.url)}`);
    await onPhone.page.getByLabel("Name of this device").fill("phone in the yard");
    await onPhone.page.getByRole("button", { name: "Let me in" }).click();
    await onPhone.page.getByText("This device is let in.").waitFor();
    // Another page of the same phone and of the same desk writes; these two only look on.
    const [atDesk, inYard] = [await onDesk.context.newPage(), await onPhone.context.newPage()];
    await onDesk.page.goto(`${first.url}trials/${trial}`);
    await onPhone.page.goto(`${address}trials/${trial}`);
    for (const { page } of [onDesk, onPhone]) await page.getByText("No coupon has been looked at yet.").waitFor();

    await readByEye(inYard, `${address}c/1`);
    await saysSoon(onDesk.page, "1 look at 1 coupon.");
    await saysSoon(onPhone.page, "1 look at 1 coupon.");
    await readByEye(atDesk, `${first.url}c/2`);
    await saysSoon(onPhone.page, "2 looks at 2 coupons.");

    first.child.kill("SIGKILL");
    await once(first.child, "exit");
    for (const { page } of [onDesk, onPhone]) await page.getByText(noAnswer).first().waitFor();
    const second = await serve(shopDir, ports);
    for (const { page } of [onDesk, onPhone])
      await page.getByText(noAnswer).first().waitFor({ state: "hidden", timeout: backWithinMs });
    await readByEye(inYard, `${address}c/3`);
    await saysSoon(onDesk.page, "3 looks at 3 coupons.");
    await readByEye(atDesk, `${second.url}c/4`);
    await saysSoon(onPhone.page, "4 looks at 4 coupons.");

    const [device]: Device[] = await (await fetch(`${second.url}api/devices`)).json();
    await fetch(`${second.url}api/devices/${device!.id}`, { method: "DELETE" });
    await saysSoon(onPhone.page, "This device is not let in, or was sent away.");
    for (const { faults } of [onDesk, onPhone])
      expect(faults.filter((fault) => !/401|503|ERR_/.test(fault))).toEqual([]);
  });
});

const noAnswer = "does not answer";
/** Longer than the longest wait between two calls. */
const backWithinMs = 20_000;

async function saysSoon(page: Page, words: string) {
  await page.getByText(words).first().waitFor({ timeout: atOnceMs });
}

async function readByEye(page: Page, coupon: string) {
  await page.goto(coupon);
  await page.getByText("Judge by eye").click();
  await page.getByLabel("Rusted part of the face, in %").fill("2");
  const name = page.getByLabel("Your name");
  if (await name.count()) await name.fill("Ines");
  const written = page.waitForResponse((answer) => answer.url().endsWith("/observations") && answer.status() === 201);
  await page.getByText("Write it down").click();
  await written;
}

async function codeAt(url: string): Promise<string> {
  const headers = { "content-type": "application/json" };
  const answer = await fetch(`${url}api/pairing/code`, { method: "POST", headers, body: '{"role":"helper"}' });
  return (await answer.json()).code;
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, "close");
  return port;
}
