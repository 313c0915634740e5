/** A WebP with only those chunks that its pixels and their true colours need (RFC 9649). */
import { harmlessExif } from "./harmless-exif.ts";

const kept = new Set(["VP8 ", "VP8L", "ALPH", "ICCP", "ANIM", "ANMF"]);
/** Bits of the extended head that say which notes follow. */
const notes = { exif: 0x08, xmp: 0x04 };

export function webpWithoutPlace(bytes: Buffer): Buffer {
  const end = 8 + bytes.readUInt32LE(4);
  if (end > bytes.length) throw new RangeError("the picture does not end");
  const parts: Buffer[] = [];
  let head: Buffer | null = null;
  let hasExif = false;
  for (let at = 12; at + 8 <= end; ) {
    const length = bytes.readUInt32LE(at + 4);
    const next = at + 8 + length + (length % 2);
    if (at + 8 + length > end) throw new RangeError("a chunk ends behind the file");
    const kind = bytes.toString("latin1", at, at + 4);
    const chunk = bytes.subarray(at, Math.min(next, end));
    if (kind === "VP8X") {
      head = Buffer.from(chunk);
      parts.push(head);
    } else if (kept.has(kind)) parts.push(chunk);
    else if (kind === "EXIF") {
      const exif = keptExif(chunk, length);
      hasExif = exif.length > 0;
      parts.push(exif);
    }
    at = next;
  }
  if (head) head[8] = (head.readUInt8(8) & ~(notes.exif | notes.xmp)) | (hasExif ? notes.exif : 0);
  const size = Buffer.alloc(4);
  size.writeUInt32LE(4 + parts.reduce((sum, part) => sum + part.length, 0));
  return Buffer.concat([bytes.subarray(0, 4), size, bytes.subarray(8, 12), ...parts]);
}

/** Some writers put the six bytes before the block that a JPEG has there. */
function keptExif(chunk: Buffer, length: number): Buffer {
  const content = chunk.subarray(8, 8 + length);
  const whole = content.toString("latin1", 0, 4) === "Exif" ? content.subarray(6) : content;
  const exif = harmlessExif(whole);
  if (exif === whole) return chunk;
  if (exif === null) return Buffer.alloc(0);
  const head = Buffer.alloc(8);
  head.write("EXIF", "latin1");
  head.writeUInt32LE(exif.length, 4);
  return Buffer.concat([head, exif, Buffer.alloc(exif.length % 2)]);
}
