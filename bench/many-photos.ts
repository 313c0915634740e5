/**
 * What a served shop holds in memory over many photographs of 12 megapixels: uploaded and measured over its API, two at a time as the page does it, every second one by the card.
 *
 *   node tools/go.mjs build
 *   npx rolldown bench/many-photos.ts --platform node --external sharp --file dist/many-photos.mjs
 *   node dist/many-photos.mjs [--photos 100]
 *
 * Linux only (/proc). "server" and "measuring" are what the system gave to the two processes, "garbage" what the server's engine could have let go of
 * at that moment, "outside" what it holds outside of its heap. The last row is just over five minutes after the last photograph.
 */
import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { renderCard, rustyCoupon } from "../tests/rendered-card.ts";

const { values } = parseArgs({ options: { photos: { type: "string", default: "100" } } });
const folder = mkdtempSync(join(tmpdir(), "many-photos-"));

const { rgb, widthPx, heightPx, couponCornersPx } = renderCard({
  seed: 1,
  card: "medium",
  widthPx: 4000,
  heightPx: 3000,
  tiltDeg: 12,
  fills: 0.5,
  coupon: rustyCoupon("phosphate oiled", { rustedPercent: 6, edgePercent: 12 }),
  blurPx: 1,
  noise: 2,
});
const jpeg = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
  .jpeg({ quality: 92 })
  .toBuffer();

/** The same picture as another file: a comment (T.81, B.2.4.5) right behind its first two bytes. */
function another(at: number): Buffer {
  const comment = Buffer.from(`\xff\xfe\0\x0anr ${String(at).padStart(5)}`, "latin1");
  return Buffer.concat([jpeg.subarray(0, 2), comment, jpeg.subarray(2)]);
}

// Asked by a signal, the served process says what it holds, lets its garbage go, and says it again.
const probe = join(folder, "probe.mjs");
writeFileSync(
  probe,
  `import { isMainThread } from "node:worker_threads";
if (isMainThread) process.on("SIGUSR2", () => {
  const before = process.memoryUsage();
  globalThis.gc();
  console.error(JSON.stringify({ before, after: process.memoryUsage() }));
});
`,
);
const server = spawn(
  process.execPath,
  ["--expose-gc", "--import", probe, "dist/node/cli/bin.js", "serve", "--shop", join(folder, "shop"), "--port", "0"],
  { stdio: ["ignore", "pipe", "pipe"] },
);
const said = createInterface({ input: server.stderr })[Symbol.asyncIterator]();
let url = "";
for await (const line of createInterface({ input: server.stdout })) {
  url = /http:\/\/127\.0\.0\.1:\d+\//.exec(line)?.[0] ?? "";
  if (url) break;
}

async function uploadedAndMeasured(at: number): Promise<void> {
  const form = new FormData();
  form.append("photo", new Blob([new Uint8Array(another(at))]));
  const photo = (await (await fetch(`${url}api/photos`, { method: "POST", body: form })).json()) as { hash: string };
  const id = randomUUID();
  const request = {
    ...{ id, photo: photo.hash, cornersPx: at % 2 === 0 ? null : couponCornersPx },
    ...{ sizeMm: { lengthMm: 100, widthMm: 60 }, thicknessMm: 3, edgeBandMm: 5 },
  };
  const headers = { "content-type": "application/json" };
  await fetch(`${url}api/measurements`, { method: "POST", headers, body: JSON.stringify(request) });
  for (;;) {
    const job = (await (await fetch(`${url}api/jobs/${id}`)).json()) as { state: string; failure: string | null };
    if (job.state === "done") break;
    if (job.state !== "waiting" && job.state !== "working") throw new Error(`not measured: ${JSON.stringify(job)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  // As the page shows it.
  await (await fetch(`${url}api/photos/${photo.hash}?width=640`)).arrayBuffer();
}

type Held = { rss: number; heapUsed: number; external: number };

/** MB resident now, and at most so far. */
function residentOf(pid: number | string): [number, number] {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  const inMB = (what: string) =>
    Math.round((1024 * Number(new RegExp(`^${what}:\\s+(\\d+)`, "m").exec(status)?.[1])) / 1e6);
  return [inMB("VmRSS"), inMB("VmHWM")];
}

async function row(photos: number): Promise<void> {
  const [served, most] = residentOf(server.pid!);
  const child = readFileSync(`/proc/${server.pid}/task/${server.pid}/children`, "utf8").trim().split(" ")[0];
  const [measuring, mostMeasuring] = child ? residentOf(child) : ["ended", ""];
  server.kill("SIGUSR2");
  for (;;) {
    const { value, done } = await said.next();
    if (done) throw new Error("the server ended");
    if (!value.startsWith("{")) continue;
    const { before, after } = JSON.parse(value) as { before: Held; after: Held };
    const inMB = (bytes: number) => (bytes / 1e6).toFixed(0);
    const held = [before.heapUsed - after.heapUsed, after.heapUsed, before.external, after.external].map(inMB);
    console.log(`| ${[photos, served, most, measuring, mostMeasuring, ...held].join(" | ")} |`);
    return;
  }
}

console.log(
  "| photographs | server MB | most | measuring MB | most | garbage | heap | outside | outside, garbage gone |\n|---|---|---|---|---|---|---|---|---|",
);
await row(0);
const photos = Number(values.photos);
for (let at = 0; at < photos; at += 2) {
  await Promise.all([uploadedAndMeasured(at), uploadedAndMeasured(at + 1)]);
  if ((at + 2) % 10 === 0) await row(at + 2);
}
await new Promise((resolve) => setTimeout(resolve, 305_000));
await row(photos);
server.kill("SIGTERM");
await new Promise((resolve) => server.once("exit", resolve));
rmSync(folder, { recursive: true });
