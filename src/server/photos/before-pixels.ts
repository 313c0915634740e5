/** What stands in a JPEG or PNG file before its pixels: how much of it there is, and whether more than one picture follows. */
import { type FileHandle, open } from "node:fs/promises";

export type BeforePixels = { bytes: number; animated: boolean };

/** Reads only the heads of the blocks, up to the first pixel or the end; a broken file is left to the decoder. */
export async function beforePixels(path: string, format: "jpeg" | "png" | "webp"): Promise<BeforePixels> {
  if (format === "webp") return { bytes: 0, animated: false };
  const file = await open(path, "r");
  try {
    return await (format === "jpeg" ? inJpeg(file) : inPng(file));
  } finally {
    await file.close();
  }
}

const startOfScan = 0xda;
/** A file of nothing but heads ends here: no camera writes so many. */
const mostBlocks = 20_000;

async function inJpeg(file: FileHandle): Promise<BeforePixels> {
  const head = Buffer.alloc(4);
  let at = 2;
  for (let block = 0; block < mostBlocks; block++) {
    const { bytesRead } = await file.read(head, 0, 4, at);
    if (bytesRead < 4 || head[0] !== 0xff || head[1] === startOfScan) break;
    at += 2 + head.readUInt16BE(2);
  }
  return { bytes: at, animated: false };
}

async function inPng(file: FileHandle): Promise<BeforePixels> {
  const head = Buffer.alloc(8);
  let at = 8;
  let animated = false;
  for (let block = 0; block < mostBlocks; block++) {
    const { bytesRead } = await file.read(head, 0, 8, at);
    const kind = head.toString("latin1", 4, 8);
    if (bytesRead < 8 || kind === "IDAT" || kind === "IEND") break;
    if (kind === "acTL") animated = true;
    at += 12 + head.readUInt32BE(0);
  }
  return { bytes: at, animated };
}
