// What a phone needs of the built page: a manifest, icons drawn from the mark, the service worker's list of files, and
// every file packed beside itself, since a slow network is what a phone in a yard has.
import { createHash } from "node:crypto";
import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import sharp from "sharp";

const worker = "service-worker.js";
const paper = "#f6f3ea";
const packed = /\.(js|css|svg|html|webmanifest)$/;

/** @returns {import("vite").Plugin} */
export function pocketPage() {
  let root = "";
  return {
    name: "pocket-page",
    apply: "build",
    configResolved(config) {
      root = config.root;
    },
    // From the files as they were written: what stands in memory before is not final.
    async writeBundle({ dir }) {
      copyFileSync(join(root, "manifest.webmanifest"), join(dir, "manifest.webmanifest"));
      for (const side of [180, 192, 512]) await drawIcon(join(root, "mark.svg"), side, join(dir, `icon-${side}.png`));
      writeStylesIntoPage(dir);
      nameFilesInWorker(dir);
      for (const file of filesBelow(dir).filter((name) => packed.test(name))) pack(file);
    },
  };
}

/** The mark fills the middle: a phone cuts the corners of an icon as it likes. */
async function drawIcon(mark, side, to) {
  const drawn = await sharp(mark, { density: 1200 })
    .resize(Math.round(side * 0.7))
    .toBuffer();
  await sharp({ create: { width: side, height: side, channels: 3, background: paper } })
    .composite([{ input: drawn }])
    .png()
    .toFile(to);
}

/**
 * A browser asks one place for six things at a time. Two answers of the shop and four scripts are six: the style sheet as a
 * seventh would make the largest of them wait for a whole way there and back.
 */
function writeStylesIntoPage(dir) {
  const page = join(dir, "index.html");
  const link = /<link rel="stylesheet"[^>]* href="\/(assets\/[^"]+\.css)">/g;
  const html = readFileSync(page, "utf8").replace(link, (_link, name) => {
    const css = readFileSync(join(dir, name), "utf8");
    rmSync(join(dir, name));
    return `<style>${css.replaceAll("</", "<\\/")}</style>`;
  });
  writeFileSync(page, html);
}

/** The worker changes with any file of the page, so that a browser notices the new page. */
function nameFilesInWorker(dir) {
  const files = filesBelow(dir).filter((file) => file !== join(dir, worker));
  const hash = createHash("sha256");
  for (const file of files) hash.update(relative(dir, file)).update(readFileSync(file));
  const built = {
    version: hash.digest("hex").slice(0, 16),
    files: files
      .map((file) => `/${relative(dir, file).replaceAll("\\", "/")}`)
      .filter((name) => name !== "/index.html"),
  };
  const code = readFileSync(join(dir, worker), "utf8");
  writeFileSync(join(dir, worker), `const BUILT_PAGE = ${JSON.stringify(built)};\n${code}`);
}

function pack(file) {
  const bytes = readFileSync(file);
  writeFileSync(`${file}.gz`, gzipSync(bytes, { level: 9 }));
  writeFileSync(`${file}.br`, brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 10 } }));
}

function filesBelow(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}
