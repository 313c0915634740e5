/**
 * A shop and a phone on two machines, as the kernel sees them: two network namespaces with a cable between them, so that
 * what comes in really has another address. The shop is shared, the phone learns whom to trust, is let in, writes down in a
 * browser, floods, comes from outside the local ranges, and the shop's address changes under it. Needs Linux and root.
 *
 *   npx rolldown bench/two-machines.ts --platform node --external playwright-core \
 *     --file bench/two-machines.mjs && node bench/two-machines.mjs   (after a build)
 */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { request as plainRequest } from "node:http";
import { request as tlsRequest } from "node:https";
import { connect, type Socket } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { chromium } from "playwright-core";
import { findBrowser } from "../src/cli/find-browser.ts";
import { keyHashAt } from "../tests/key-hash.ts";

const root = join(import.meta.dirname, "..");
const [shopRoom, phoneRoom] = ["coatwright-shop", "coatwright-phone"];
const shop = { at: "192.168.77.5", later: "192.168.77.6", outside: "203.0.113.1" };
const phone = { at: "192.168.77.20", other: "192.168.77.21", outside: "203.0.113.9" };
const [port, sharePort] = [4480, 4481];

const ip = (...words: string[]) => execFileSync("ip", words, { stdio: ["ignore", "pipe", "inherit"] });
const inRoom = (room: string, command: string, ...words: string[]) =>
  ["netns", "exec", room, command, ...words] as const;

let failed = 0;
function say(what: string, holds: boolean, more = "") {
  if (!holds) failed += 1;
  console.log(`${holds ? "holds " : "FAILED"}  ${what}${more === "" ? "" : `: ${more}`}`);
}

async function onBoth() {
  const dir = mkdtempSync(join(tmpdir(), "two-machines-"));
  let child: ChildProcess | null = null;
  try {
    layCable();
    const bin = join(root, "dist", "node", "cli", "bin.js");
    const serve = ["serve", "--shop", join(dir, "shop"), "--port", String(port), "--json"];
    child = spawn("ip", inRoom(shopRoom, process.execPath, bin, ...serve), { stdio: ["ignore", "pipe", "inherit"] });
    await once(child.stdout!, "data");
    runPhone("unshared");
    owner("PUT", "/api/sharing", { on: true, way: "encrypted" });
    const trial = startTrial();
    const { code } = owner("POST", "/api/pairing/code", { role: "helper" });
    runPhone("shared", code);
    const { observations } = owner("GET", `/api/trials/${trial}`);
    say("the look that the phone wrote down is in the shop", observations.at(-1).body.kind === "look");
    const devices: { lastSeenAt: string | null }[] = owner("GET", "/api/devices");
    say("the device list says when it was seen", devices.length === 1 && devices[0]!.lastSeenAt !== null);
    await move();
    runPhone("moved");
  } finally {
    child?.kill("SIGKILL");
    for (const room of [shopRoom, phoneRoom]) ip("netns", "del", room);
    rmSync(dir, { recursive: true, force: true });
  }
}

function layCable() {
  for (const room of [shopRoom, phoneRoom]) ip("netns", "add", room);
  ip("link", "add", "cable0", "netns", shopRoom, "type", "veth", "peer", "name", "cable1", "netns", phoneRoom);
  const ends = [
    { room: shopRoom, end: "cable0", addresses: [shop.at, shop.outside] },
    { room: phoneRoom, end: "cable1", addresses: [phone.at, phone.other, phone.outside] },
  ];
  for (const { room, end, addresses } of ends) {
    for (const address of addresses) ip("-n", room, "addr", "add", `${address}/24`, "dev", end);
    for (const link of ["lo", end]) ip("-n", room, "link", "set", link, "up");
  }
}

async function move() {
  ip("-n", shopRoom, "addr", "add", `${shop.later}/24`, "dev", "cable0");
  ip("-n", shopRoom, "addr", "del", `${shop.at}/24`, "dev", "cable0");
  // The kernel drops a subnet's later addresses with its first one.
  if (!String(ip("-n", shopRoom, "addr")).includes(shop.later))
    ip("-n", shopRoom, "addr", "add", `${shop.later}/24`, "dev", "cable0");
  const from = performance.now();
  for (;;) {
    const { movedFrom, addresses } = owner("GET", "/api/sharing");
    const waitedS = (performance.now() - from) / 1000;
    if (movedFrom === shop.at) {
      say(
        "the owner hears that the address changed",
        addresses[0].includes(shop.later),
        `after ${waitedS.toFixed(0)} s`,
      );
      return;
    }
    if (waitedS > 30) return say("the owner hears that the address changed", false);
    await wait(500);
  }
}

/** As the owner, at the machine itself. */
// biome-ignore lint/suspicious/noExplicitAny: answers of a trial, looked at and thrown away.
function owner(method: string, path: string, body?: object): any {
  const sent = body ? ["-H", "content-type: application/json", "-d", JSON.stringify(body)] : [];
  const curl = inRoom(shopRoom, "curl", "-s", "-X", method, ...sent, `http://127.0.0.1:${port}${path}`);
  return JSON.parse(String(execFileSync("ip", curl)));
}

function startTrial(): string {
  const id = randomUUID();
  const treatments = ["oil", "wax"].map((name, at) => {
    return { name, role: at === 0 ? "control" : "finish", coupons: 2, route: [{ name, treated: "alone" }] };
  });
  const draft = {
    ...{ question: "Does wax hold off rust longer than oil?", treatments, blocks: 1, edgeBandMm: 5, seed: 7 },
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
    ...{ rustThresholdPercent: 0.01, lookDays: [1, 7], rackColumns: 4, sparesOfEach: 0 },
  };
  owner("POST", "/api/trials", { id, name: "shed", by: "Ada", draft });
  const date = new Date(Date.now() - 7 * 86_400_000).toISOString().slice(0, 10);
  const body = { kind: "put out", site: "shed", date, coupons: ["1", "2", "3", "4"] };
  owner("POST", `/api/trials/${id}/observations`, { id: randomUUID(), by: "Ada", corrects: null, body });
  return id;
}

function runPhone(...words: string[]) {
  const run = inRoom(phoneRoom, process.execPath, import.meta.filename, "phone", ...words);
  try {
    execFileSync("ip", run, { stdio: "inherit", timeout: 120_000 });
  } catch {
    failed += 1;
  }
}

async function onPhone(standing: string, code: string) {
  if (standing === "unshared") {
    for (const at of [port, sharePort])
      say(`not shared, port ${at} does not answer the network`, (await asked(`http://${shop.at}:${at}/`)).status === 0);
    return;
  }
  const at = standing === "moved" ? shop.later : shop.at;
  const ca = (await asked(`http://${at}:${sharePort}/coatwright-authority.crt`)).body;
  const pem = `-----BEGIN CERTIFICATE-----\n${ca.toString("base64")}\n-----END CERTIFICATE-----\n`;
  const stranger = await asked(`https://${at}:${sharePort}/api/shop`, { ca: pem });
  say(`${at}: a phone that trusts the authority meets a certificate that fits`, stranger.status === 401, stranger.why);
  if (standing === "moved") return;
  say("the owner's own page stays on loopback", (await asked(`http://${at}:${port}/`)).status === 0);
  const outside = await asked(`https://${shop.outside}:${sharePort}/api/shop`, { localAddress: phone.outside });
  say("who comes from outside the local ranges is hung up on", outside.status === 0, outside.why);
  const rebound = await asked(`https://${at}:${sharePort}/api/shop`, { ca: pem, host: "shed.example" });
  say("another name that points here is refused, also over TLS", rebound.status === 403);
  await flood(pem);
  await writesDown(code);
}

/** As many connections as one address may hold, and more, each with half a request; another phone asks meanwhile. */
async function flood(ca: string) {
  const sockets: Socket[] = [];
  for (let n = 0; n < 200; n++) {
    const socket = connect({ host: shop.at, port: sharePort, localAddress: phone.at });
    socket.on("error", () => {}).on("connect", () => socket.write("GET / HTTP/1.1\r\nHost: a"));
    sockets.push(socket.resume());
  }
  await wait(1000);
  const from = performance.now();
  const url = `https://${shop.at}:${sharePort}/api/shop`;
  const calm = await asked(url, { ca, localAddress: phone.other });
  say("200 half-said requests of one phone do not keep another out", calm.status === 401, ms(from));
  say("the flooding phone holds 64 of them", sockets.filter(({ destroyed }) => !destroyed).length === 64);
  await wait(16_000);
  say(
    "and they are ended within 16 s",
    sockets.every(({ destroyed }) => destroyed),
  );
}

async function writesDown(code: string) {
  const address = `https://${shop.at}:${sharePort}/`;
  const browser = await chromium.launch({
    executablePath: findBrowser({ mayInstall: false }).path!,
    args: ["--no-sandbox", "--disable-gpu", `--ignore-certificate-errors-spki-list=${await keyHashAt(address)}`],
  });
  const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  await page.goto(`${address}pair#${code}`);
  await page.getByLabel("Name of this device").fill("phone");
  await page.getByRole("button", { name: "Let me in" }).click();
  await page.getByText("This device is let in.").waitFor();
  const secure = await page.evaluate(() => isSecureContext && "serviceWorker" in navigator);
  say("a browser on the phone is let in, in a secure context", secure);
  await page.goto(`${address}c/3`);
  await page.getByText("Judge by eye").click();
  await page.getByLabel("Rusted part of the face, in %").fill("2");
  const name = page.getByLabel("Your name");
  if (await name.count()) await name.fill("Ines");
  const written = page.waitForResponse((answer) => answer.url().endsWith("/observations"));
  await page.getByText("Write it down").click();
  say("it writes a look down", (await written).status() === 201);
  await browser.close();
}

const ms = (from: number) => `${Math.round(performance.now() - from)} ms`;

type Sent = { ca?: string; host?: string; localAddress?: string };

/** `status` 0: nobody answered, and why. */
function asked(
  url: string,
  { ca, host, localAddress }: Sent = {},
): Promise<{ status: number; body: Buffer; why: string }> {
  const options = {
    agent: false,
    timeout: 5000,
    ...(localAddress && { localAddress }),
    ...(host && { headers: { host } }),
  };
  return new Promise((resolve) => {
    const none = (why: string) => resolve({ status: 0, body: Buffer.alloc(0), why });
    const sent = url.startsWith("https:")
      ? tlsRequest(url, { ...options, ...(ca ? { ca, servername: "" } : { rejectUnauthorized: false }) })
      : plainRequest(url, options);
    sent.on("error", (error) => none(error.message));
    sent.on("timeout", () => sent.destroy(new Error("no answer in 5 s")));
    sent.on("response", async (response) => {
      const parts: Buffer[] = [];
      for await (const part of response) parts.push(part);
      resolve({ status: response.statusCode ?? 0, body: Buffer.concat(parts), why: "" });
    });
    sent.end();
  });
}

if (process.argv[2] === "phone") await onPhone(process.argv[3] ?? "", process.argv[4] ?? "");
else await onBoth();
process.exit(failed === 0 ? 0 : 1);
