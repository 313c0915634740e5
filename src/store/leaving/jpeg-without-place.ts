/** A JPEG with only those segments that its pixels and their upright, true-coloured showing need (ITU-T T.81, JFIF, EXIF). */
import { harmlessExif } from "./harmless-exif.ts";

const startOfScan = 0xda;
const endOfImage = 0xd9;
const [app0, app1, app2, app14] = [0xe0, 0xe1, 0xe2, 0xee];
const exifHead = Buffer.from("Exif\0\0", "latin1");

export function jpegWithoutPlace(bytes: Buffer): Buffer {
  const parts = [bytes.subarray(0, 2)];
  let at = 2;
  for (;;) {
    // Any marker may have fill bytes before it, and some cameras leave others there, which every decoder passes over.
    while (bytes.readUInt8(at) !== 0xff || isNoMarker(bytes.readUInt8(at + 1))) at++;
    const marker = bytes.readUInt8(at + 1);
    if (marker === endOfImage) break;
    const end = at + 2 + bytes.readUInt16BE(at + 2);
    if (end > bytes.length) throw new RangeError("a segment ends behind the file");
    parts.push(keptSegment(bytes.subarray(at, end), marker));
    at = end;
    if (marker !== startOfScan) continue;
    const scanEnd = endOfScan(bytes, at);
    parts.push(bytes.subarray(at, scanEnd));
    at = scanEnd;
  }
  // What stands behind the end (a second picture, a film, a maker's trailer) is no part of this one.
  return Buffer.concat([...parts, bytes.subarray(at, at + 2)]);
}

const isNoMarker = (byte: number) => byte === 0xff || byte === 0;

const nothing = Buffer.alloc(0);

function keptSegment(segment: Buffer, marker: number): Buffer {
  const starts = (text: string) => segment.toString("latin1", 4, 4 + text.length) === text;
  if (marker === app0) return starts("JFIF\0") ? segment : nothing;
  if (marker === app2) return starts("ICC_PROFILE\0") ? segment : nothing;
  if (marker === app1) return segment.subarray(4, 10).equals(exifHead) ? keptExif(segment) : nothing;
  if (marker === app14) return starts("Adobe") ? segment : nothing;
  const isNote = (marker >= app0 && marker <= 0xef) || marker === 0xfe;
  return isNote ? nothing : segment;
}

function keptExif(segment: Buffer): Buffer {
  const whole = segment.subarray(10);
  const exif = harmlessExif(whole);
  if (exif === whole) return segment;
  if (exif === null) return nothing;
  const head = Buffer.alloc(4);
  head.writeUInt16BE(0xffe1, 0);
  head.writeUInt16BE(2 + exifHead.length + exif.length, 2);
  return Buffer.concat([head, exifHead, exif]);
}

/** Where the next marker stands; inside a scan 0xff is followed by 0 or by a restart number. */
function endOfScan(bytes: Buffer, from: number): number {
  for (let at = from; ; at++) {
    at = bytes.indexOf(0xff, at);
    if (at < 0) throw new RangeError("the picture does not end");
    const next = bytes.readUInt8(at + 1);
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
}
