/** A PNG with only those chunks that its pixels and their true colours need (ISO/IEC 15948). */
import { crc32 } from "node:zlib";
import { harmlessExif } from "./harmless-exif.ts";

const kept = new Set(["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "pHYs", "bKGD"]);

export function pngWithoutPlace(bytes: Buffer): Buffer {
  const parts = [bytes.subarray(0, 8)];
  for (let at = 8; ; ) {
    const end = at + 12 + bytes.readUInt32BE(at);
    if (end > bytes.length) throw new RangeError("a chunk ends behind the file");
    const kind = bytes.toString("latin1", at + 4, at + 8);
    if (kept.has(kind)) parts.push(bytes.subarray(at, end));
    else if (kind === "eXIf") parts.push(keptExif(bytes.subarray(at, end)));
    at = end;
    if (kind === "IEND") return Buffer.concat(parts);
  }
}

function keptExif(chunk: Buffer): Buffer {
  const whole = chunk.subarray(8, -4);
  const exif = harmlessExif(whole);
  if (exif === whole) return chunk;
  if (exif === null) return Buffer.alloc(0);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(exif.length);
  const content = Buffer.concat([Buffer.from("eXIf", "latin1"), exif]);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(content));
  return Buffer.concat([length, content, check]);
}
