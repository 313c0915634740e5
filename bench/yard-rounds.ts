/**
 * Rounds in a yard out of reach: a phone opens from its own store, 30 things wait on it (5 large photographs among them),
 * it is reloaded, the shop comes back, is killed (-9) while a photograph is on its way, and comes back again. Each thing
 * must be in the shop exactly once, in the order of its own time, and a desktop beside it must find the shop again.
 * The phone comes over TLS, trusts the shop's own authority, and is let in by a code; the desktop sits at the shop's machine.
 *
 *   npx rolldown bench/yard-rounds.ts --platform node --external playwright-core --external sharp \
 *     --file bench/yard-rounds.mjs && node bench/yard-rounds.mjs 20   (after a build)
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { createHash, randomBytes, randomUUID } from "node:crypto";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import sharp from "sharp";
import type { TrialDocument } from "../src/api/shop.ts";
import { findBrowser } from "../src/cli/find-browser.ts";

const root = join(import.meta.dirname, "..");
const rounds = Number(process.argv[2] ?? 20);
const things = 30;
const photographEvery = 6;
const patienceMs = 90_000;

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

/** Four coupons that have hung in the shed for a week. */
async function trialOutdoors(url: string): Promise<string> {
  const id = randomUUID();
  const post = async (path: string, body: object) => {
    const headers = { "content-type": "application/json" };
    const answer = await fetch(`${url}api/${path}`, { method: "POST", headers, body: JSON.stringify(body) });
    if (answer.status !== 201) throw new Error(await answer.text());
  };
  const treatments = (["oil", "wax"] as const).map((name) => ({
    name,
    role: name === "oil" ? "control" : "finish",
    coupons: 2,
    route: [{ name, treated: "alone" }],
  }));
  const draft = {
    question: "Does wax hold off rust longer than oil?",
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    treatments,
    blocks: 1,
    couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
    edgeBandMm: 5,
    rustThresholdPercent: 0.01,
    lookDays: [1, 7],
    rackColumns: 4,
    sparesOfEach: 0,
    seed: 7,
  };
  await post("trials", { id, name: "shed", by: "Ada", draft });
  const date = new Date(Date.now() - 7 * 86_400_000).toISOString().slice(0, 10);
  const body = { kind: "put out", site: "shed", date, coupons: ["1", "2", "3", "4"] };
  await post(`trials/${id}/observations`, { id: randomUUID(), by: "Ada", corrects: null, body });
  return id;
}

async function kill(child: ChildProcess) {
  const gone = once(child, "exit");
  child.kill("SIGKILL");
  await gone;
}

/** Noise packs badly: about three pieces. */
async function noisyPhoto(): Promise<Buffer> {
  const side = 1100;
  return sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } })
    .jpeg({ quality: 98 })
    .toBuffer();
}

type Planned = { id: string; coupon: string; photo: Buffer | null };

async function planned(): Promise<Planned[]> {
  return Promise.all(
    Array.from({ length: things }, async (_, at) => ({
      id: randomUUID(),
      coupon: String((at % 4) + 1),
      photo: at % photographEvery === photographEvery - 1 ? await noisyPhoto() : null,
    })),
  );
}

/** Into the page's own queue, as its forms write it. */
async function queue(page: Page, trial: string, all: readonly Planned[]) {
  const rows = all.map(({ id, coupon, photo }, at) => ({ id, coupon, photo: photo?.toString("base64") ?? null, at }));
  await page.evaluate(
    async ({ trial, rows }) => {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const opening = indexedDB.open("coatwright");
        opening.onsuccess = () => resolve(opening.result);
        opening.onerror = () => reject(opening.error);
      });
      const writing = database.transaction("waiting", "readwrite");
      const began = Date.now() - rows.length * 60_000;
      for (const { id, coupon, photo, at } of rows) {
        const kept = { id, writtenAt: new Date(began + at * 60_000).toISOString(), skewMs: 0, refused: null };
        const when = { date: new Date(began).toISOString().slice(0, 10) };
        const look = { kind: "look", coupon, face: "front", when, rustedPercent: at / 100, edgePercent: null };
        const body = { ...look, how: "eye", blind: true, measurement: null };
        const bytes = photo === null ? null : Uint8Array.from(atob(photo), (letter) => letter.charCodeAt(0));
        writing.objectStore("waiting").add(
          bytes
            ? {
                ...kept,
                kind: "photo",
                inspection: `${trial} ${coupon} front ${at}`,
                file: new Blob([bytes], { type: "image/jpeg" }),
              }
            : { ...kept, kind: "observation", trial, observation: { id, by: "Ines", corrects: null, body } },
        );
      }
      await new Promise((resolve, reject) => {
        writing.oncomplete = resolve;
        writing.onerror = reject;
      });
      database.close();
    },
    { trial, rows },
  );
}

/** Waits for a photograph that is partly in the shop; false: all were too fast to be caught. */
async function midUpload(shopDir: string): Promise<boolean> {
  const folder = join(shopDir, "uploads");
  for (const end = Date.now() + patienceMs; Date.now() < end; await wait(5)) {
    const parts = (() => {
      try {
        return readdirSync(folder).filter((name) => name.endsWith(".part"));
      } catch {
        return [];
      }
    })();
    if (parts.some((name) => (statSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0) > 0)) return true;
  }
  return false;
}

async function round(desks: Browser): Promise<{ faults: string[]; seconds: number }> {
  const began = performance.now();
  const faults: string[] = [];
  const shopDir = mkdtempSync(join(tmpdir(), "coatwright-yard-"));
  let server = await serve(shopDir, { own: 0, network: 0 });
  const { url, network } = server;
  const ports = { own: Number(new URL(url).port), network: Number(new URL(network).port) };
  const trial = await trialOutdoors(url);
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
  const all = await planned();
  await queue(cold, trial, all);
  await cold.reload();
  await cold.getByText(`${things} things recorded on this device are not in the shop yet`).waitFor();
  server = await serve(shopDir, ports);
  if (!(await midUpload(shopDir))) faults.push("no photograph was caught on its way");
  await kill(server.child);
  server = await serve(shopDir, ports);
  await cold.getByText("Nothing waits on this device").waitFor({ timeout: patienceMs });
  await desktop.locator(".waiting-mark.is-away").waitFor({ state: "detached", timeout: patienceMs });

  const stored: TrialDocument = await (await fetch(`${url}api/trials/${trial}`)).json();
  const written = stored.observations.filter(({ body }) => body.kind === "look");
  const wanted = all.filter(({ photo }) => !photo).map(({ id }) => id);
  if (written.map(({ id }) => id).join() !== wanted.join())
    faults.push(`written down: ${written.length} of ${wanted.length}, or out of order`);
  const times = written.map(({ written: when }) => when?.at ?? "");
  if (times.includes("") || times.join() !== [...times].sort().join())
    faults.push("not in the order of their own time");
  for (const { photo } of all) {
    if (!photo) continue;
    const hash = createHash("sha256").update(photo).digest("hex");
    const back = Buffer.from(await (await fetch(`${url}api/photos/${hash}`)).arrayBuffer());
    if (!back.equals(photo)) faults.push(`photograph ${hash.slice(0, 8)} is not the same`);
  }
  const files = readdirSync(join(shopDir, "photos"), { recursive: true }).filter((name) =>
    String(name).endsWith(".jpg"),
  );
  if (files.length !== things / photographEvery) faults.push(`${files.length} files of photographs`);
  if (readdirSync(join(shopDir, "uploads")).length > 0) faults.push("a piece was left behind");
  if (askedAgain === 0) faults.push("the desktop never asked again");
  await phones.close();
  await desk.close();
  await kill(server.child);
  rmSync(shopDir, { recursive: true });
  rmSync(home, { recursive: true });
  return { faults, seconds: (performance.now() - began) / 1000 };
}

function openBrowser(more: NodeJS.ProcessEnv = {}): Promise<Browser> {
  const executablePath = findBrowser({ mayInstall: false }).path!;
  return chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-gpu"],
    env: { ...process.env, ...more } as Record<string, string>,
  });
}

const browser = await openBrowser();
let whole = 0;
for (let at = 1; at <= rounds; at++) {
  const { faults, seconds } = await round(browser).catch((error: Error) => ({
    faults: [error.message.split("\n")[0]!],
    seconds: 0,
  }));
  if (faults.length === 0) whole++;
  console.log(`round ${at}: ${faults.length === 0 ? "whole" : faults.join("; ")}, ${seconds.toFixed(0)} s`);
}
console.log(`${whole} of ${rounds} rounds whole`);
await browser.close();
process.exitCode = whole === rounds ? 0 : 1;
