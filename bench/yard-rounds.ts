/**
 * Rounds in a yard out of reach: a phone opens from its own store, 30 things of every kind wait on it (`yard-items.ts`; six
 * large photographs among them), it is reloaded, the shop comes back, is killed (-9) while a photograph is on its way (each round
 * another one), comes back, is killed again at some later moment, and comes back for good. Each thing must be in the shop exactly
 * once, in the order of its own time, and a desktop beside it must find the shop again.
 * The phone comes over TLS, trusts the shop's own authority, and is let in by a code; the desktop sits at the shop's machine.
 *
 *   npx rolldown bench/yard-rounds.ts --platform node --external playwright-core --external sharp \
 *     --file bench/yard-rounds.mjs && node bench/yard-rounds.mjs 20   (after a build)
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import type { Measurement } from "../src/api/photo.ts";
import type { TrialDocument } from "../src/api/shop.ts";
import { findBrowser } from "../src/cli/find-browser.ts";
import {
  couponSize,
  draft,
  hashOf,
  type LookBefore,
  type Planned,
  plannedItems,
  type ReadPictures,
  readingsAtSite,
  renderPictures,
  site,
} from "./yard-items.ts";

const root = join(import.meta.dirname, "..");
const rounds = Number(process.argv[2] ?? 20);
const largePhotographs = 6;
const patienceMs = 60_000;

type Served = { url: string; network: string; child: ChildProcess };
type Ports = { own: number; network: number };

/** A server in a process of its own, so that it can be killed like one. `network`: where the phone finds it. */
async function serve(shopDir: string, { own, network }: Ports): Promise<Served> {
  const start = join(root, "dist", "node", "server", "start-server.js");
  const share = { host: "127.0.0.1", port: network, start: "encrypted" };
  const options = JSON.stringify({ shopDir, port: own, share });
  const script = `import { startServer } from ${JSON.stringify(`file://${start}`)};
    const { url, sharing } = await startServer(${options});
    console.log(JSON.stringify({ url, network: sharing.state().addresses[0] }));`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", script], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const [line] = await once(child.stdout!, "data");
  return { ...JSON.parse(String(line)), child };
}

/** A browser that trusts the shop's authority as a phone does, in a store of its own. `certutil` is in Debian's libnss3-tools. */
async function trustingBrowser(network: string, home: string): Promise<Browser> {
  const at = new URL("/coatwright-authority.crt", network.replace("https:", "http:"));
  const certificate = join(home, "authority.crt");
  writeFileSync(certificate, new Uint8Array(await (await fetch(at)).arrayBuffer()));
  const store = join(home, ".pki", "nssdb");
  mkdirSync(store, { recursive: true });
  const certutil = (...words: string[]) => {
    const { status, stderr } = spawnSync("certutil", ["-d", `sql:${store}`, ...words], { encoding: "utf8" });
    if (status !== 0) throw new Error(`certutil (Debian's libnss3-tools): ${stderr}`);
  };
  certutil("-N", "--empty-password");
  certutil("-A", "-n", "shop", "-t", "C,,", "-i", certificate);
  return openBrowser({ HOME: home });
}

/** As its owner does at the shop's own machine; the code goes by hand. */
async function letIn(phone: BrowserContext, { url, network }: Served): Promise<void> {
  const asked = await fetch(`${url}api/pairing/code`, { method: "POST" });
  const { code } = (await asked.json()) as { code: string };
  const page = await phone.newPage();
  await page.goto(`${network}pair#${code}`);
  await page.getByLabel("Name of this device").fill("phone in the yard");
  await page.getByRole("button", { name: "Let me in" }).click();
  await page.getByText("This device is let in.").waitFor();
  await page.close();
}

const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);

/** Four coupons that have hung in the shed for a week, one of them photographed and read. */
async function trialOutdoors(url: string, { rusty }: ReadPictures): Promise<{ trial: string; before: LookBefore }> {
  const trial = randomUUID();
  const post = async (path: string, body: object) => {
    const headers = { "content-type": "application/json" };
    const answer = await fetch(`${url}api/${path}`, { method: "POST", headers, body: JSON.stringify(body) });
    if (!answer.ok) throw new Error(await answer.text());
  };
  const observe = (id: string, body: object) =>
    post(`trials/${trial}/observations`, { id, by: "Ada", corrects: null, body });
  await post("trials", { id: trial, name: "shed", by: "Ada", draft: draft() });
  await observe(randomUUID(), { kind: "put out", site, date: daysAgo(7), coupons: ["1", "2", "3", "4"] });
  const form = new FormData();
  form.append("photo", new Blob([new Uint8Array(rusty)]));
  await fetch(`${url}api/photos`, { method: "POST", body: form });
  const { lengthMm, widthMm, thicknessMm } = couponSize;
  const before = { look: randomUUID(), measurement: randomUUID(), date: daysAgo(6) };
  await post("measurements", {
    ...{ id: before.measurement, photo: hashOf(rusty), cornersPx: null, sizeMm: { lengthMm, widthMm } },
    ...{ thicknessMm, edgeBandMm: 5, surface: "dry and wiped" },
  });
  const measured = await measurementOf(url, before.measurement);
  const at = { kind: "look", coupon: "2", face: "front", when: { date: before.date }, blind: true, how: "photo" };
  const { rustedPercent, edgePercent } = measured;
  await observe(before.look, { ...at, rustedPercent, edgePercent, measurement: before.measurement });
  return { trial, before };
}

async function measurementOf(url: string, id: string): Promise<Measurement> {
  for (const end = Date.now() + patienceMs; Date.now() < end; await wait(100)) {
    const answer = await fetch(`${url}api/measurements/${id}`);
    if (answer.ok) return (await answer.json()) as Measurement;
  }
  throw new Error(`measurement ${id} was not made`);
}

async function kill(child: ChildProcess) {
  const gone = once(child, "exit");
  child.kill("SIGKILL");
  await gone;
}

/** Into the page's own queue, as its forms write it: a minute between one thing and the next. */
async function queue(page: Page, all: readonly Planned[]) {
  const began = Date.now() - all.length * 60_000;
  const rows = all.map(({ item, file }, at) => ({
    item: { ...item, writtenAt: new Date(began + at * 60_000).toISOString(), skewMs: 0, refused: null },
    file: file?.toString("base64") ?? null,
  }));
  await page.evaluate(async (rows) => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open("coatwright");
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const writing = database.transaction("waiting", "readwrite");
    for (const { item, file } of rows) {
      const bytes = file === null ? null : Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
      writing.objectStore("waiting").add(bytes ? { ...item, file: new Blob([bytes], { type: "image/jpeg" }) } : item);
    }
    await new Promise((resolve, reject) => {
      writing.oncomplete = resolve;
      writing.onerror = reject;
    });
    database.close();
  }, rows);
}

/** Waits until so many photographs were seen partly in the shop, the last of them just now; false: they were too fast to be caught. */
async function midUpload(shopDir: string, many: number): Promise<boolean> {
  const folder = join(shopDir, "uploads");
  const seen = new Set<string>();
  const parts = () => {
    try {
      return readdirSync(folder).filter((name) => name.endsWith(".part"));
    } catch {
      return [];
    }
  };
  for (const end = Date.now() + patienceMs; Date.now() < end; await wait(5)) {
    for (const name of parts())
      if ((statSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0) > 0) seen.add(name);
    if (seen.size >= many) return true;
  }
  return false;
}

async function round(
  desks: Browser,
  pictures: ReadPictures,
  at: number,
): Promise<{ faults: string[]; seconds: number }> {
  const began = performance.now();
  const faults: string[] = [];
  const shopDir = mkdtempSync(join(tmpdir(), "coatwright-yard-"));
  let server = await serve(shopDir, { own: 0, network: 0 });
  const { url, network } = server;
  const ports = { own: Number(new URL(url).port), network: Number(new URL(network).port) };
  const { trial, before } = await trialOutdoors(url, pictures);
  const home = mkdtempSync(join(tmpdir(), "coatwright-phone-"));
  const phones = await trustingBrowser(network, home);
  const phone = await phones.newContext({ viewport: { width: 390, height: 844 } });
  const desk = await desks.newContext({ viewport: { width: 1280, height: 800 } });
  const desktop = await desk.newPage();
  await desktop.goto(`${url}trials/${trial}`);
  await desktop.locator("main h1").waitFor();
  let askedAgain = 0;
  desktop.on("response", (answer) => {
    if (answer.ok() && answer.url().endsWith(`/api/trials/${trial}`)) askedAgain++;
  });
  await letIn(phone, server);
  const first = await phone.newPage();
  await first.goto(network);
  await first.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
  await first.reload();
  await first.locator("main h1").waitFor();
  await first.close();
  await kill(server.child);

  const cold = await phone.newPage();
  await cold.goto(`${network}waiting`);
  await cold.getByText("Nothing waits on this device").waitFor();
  const planned = await plannedItems(trial, daysAgo(0), pictures, before);
  const all = planned.items;
  await queue(cold, all);
  await cold.reload();
  await cold.getByText(`${all.length} things recorded on this device are not in the shop yet`).waitFor();
  server = await serve(shopDir, ports);
  if (!(await midUpload(shopDir, (at % largePhotographs) + 1))) faults.push("no photograph was caught on its way");
  await kill(server.child);
  server = await serve(shopDir, ports);
  // Somewhere in what follows, whatever that is: each round elsewhere.
  await wait((at * 619) % 3000);
  await kill(server.child);
  server = await serve(shopDir, ports);
  await cold
    .getByText("Nothing waits on this device")
    .waitFor({ timeout: patienceMs })
    .catch(async () => {
      throw new Error(`still waiting: ${await cold.locator("main ol").textContent()}`);
    });
  await desktop.locator(".waiting-mark.is-away").waitFor({ state: "detached", timeout: patienceMs });

  const stored: TrialDocument = await (await fetch(`${url}api/trials/${trial}`)).json();
  const known = stored.observations.findIndex(({ id }) => id === before.look);
  const written = stored.observations.slice(known + 1);
  const wanted = all.flatMap(({ becomes }) => becomes ?? []);
  if (written.map(({ id }) => id).join() !== wanted.join())
    faults.push(`written down: ${written.length} of ${wanted.length}, or out of order`);
  const times = written.map(({ written: when }) => when?.at ?? "");
  if (times.includes("") || times.join() !== [...times].sort().join())
    faults.push("not in the order of their own time");
  const files = readdirSync(join(shopDir, "photos"), { recursive: true }).map(String);
  for (const { file } of all) {
    if (!file) continue;
    const hash = hashOf(file);
    const back = Buffer.from(await (await fetch(`${url}api/photos/${hash}`)).arrayBuffer());
    if (!back.equals(file)) faults.push(`photograph ${hash.slice(0, 8)} is not the same`);
    if (files.filter((name) => name.includes(`${hash}.`)).length !== 1)
      faults.push(`${hash.slice(0, 8)}: not one file`);
  }
  faults.push(...(await othersOnce(url, planned)));
  if (readdirSync(join(shopDir, "uploads")).length > 0) faults.push("a piece was left behind");
  if (askedAgain === 0) faults.push("the desktop never asked again");
  await phones.close();
  await desk.close();
  await kill(server.child);
  rmSync(shopDir, { recursive: true });
  rmSync(home, { recursive: true });
  return { faults, seconds: (performance.now() - began) / 1000 };
}

/** What is no observation: the eye test, the log, and what was measured with the brush. */
async function othersOnce(
  url: string,
  { eyeTest, corrected }: { eyeTest: string; corrected: string },
): Promise<string[]> {
  const get = async (path: string) => (await fetch(`${url}api/${path}`)).json();
  const day = `${daysAgo(0)}T00:00:00Z`;
  const until = new Date(Date.parse(day) + 86_400_000).toISOString();
  const readings: unknown[] = await get(`sites/${site}/readings?${new URLSearchParams({ from: day, to: until })}`);
  const eyeTests: { id: string }[] = await get("eye-tests");
  const measured: Measurement = await get(`measurements/${corrected}`);
  return [
    ...(eyeTests.map(({ id }) => id).join() === eyeTest ? [] : ["the eye test is not there once"]),
    ...(readings.length === readingsAtSite ? [] : [`${readings.length} readings of the log`]),
    ...(measured.byHand?.why === "that is clay" ? [] : ["the brush's correction was not measured"]),
  ];
}

function openBrowser(more: NodeJS.ProcessEnv = {}): Promise<Browser> {
  const executablePath = findBrowser({ mayInstall: false }).path!;
  return chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-gpu"],
    env: { ...process.env, ...more } as Record<string, string>,
  });
}

const pictures = await renderPictures();
const browser = await openBrowser();
let whole = 0;
for (let at = 1; at <= rounds; at++) {
  const { faults, seconds } = await round(browser, pictures, at).catch((error: Error) => ({
    faults: [error.message.split("\n")[0]!],
    seconds: 0,
  }));
  if (faults.length === 0) whole++;
  console.log(`round ${at}: ${faults.length === 0 ? "whole" : faults.join("; ")}, ${seconds.toFixed(0)} s`);
}
console.log(`${whole} of ${rounds} rounds whole`);
await browser.close();
process.exitCode = whole === rounds ? 0 : 1;
