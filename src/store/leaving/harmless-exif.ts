/** An EXIF block (TIFF 6.0 within EXIF 2.3) with only fields that cannot tell a place. */

/** Turn, resolution, colour, size, exposure, lens, the moment. Not the place, the maker's own notes, names, comments, thumbnail. */
const harmless = new Set([
  ...[0x0100, 0x0101, 0x0102, 0x0103, 0x0106, 0x0112, 0x0115, 0x011a, 0x011b, 0x0128, 0x0132, 0x0213],
  ...[0x829a, 0x829d, 0x8822, 0x8827, 0x8830, 0x9000, 0x9003, 0x9004, 0x9011, 0x9101, 0x9201, 0x9202, 0x9204],
  ...[0x9205, 0x9207, 0x9208, 0x9209, 0x920a, 0xa000, 0xa001, 0xa002, 0xa003, 0xa402, 0xa403, 0xa404, 0xa405],
]);
const tagOfExifFolder = 0x8769;
const bytesOfType = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

type Field = { tag: number; type: number; count: number; value: Buffer };
type Folder = { kept: Field[]; inner: Field[]; dropped: boolean };

/** The very same block where nothing was to be left out; null where nothing remains or it cannot be read. */
export function harmlessExif(block: Buffer): Buffer | null {
  const order = block.toString("latin1", 0, 2);
  if (order !== "II" && order !== "MM") return null;
  const read = readerOf(block, order === "II");
  try {
    const { kept, inner, dropped } = folderAt(read, block, read.whole(4), true);
    if (!dropped) return block;
    return kept.length + inner.length === 0 ? null : written(kept, inner, order === "II");
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

type Reader = { half: (at: number) => number; whole: (at: number) => number };

const readerOf = (block: Buffer, little: boolean): Reader => ({
  half: (at) => (little ? block.readUInt16LE(at) : block.readUInt16BE(at)),
  whole: (at) => (little ? block.readUInt32LE(at) : block.readUInt32BE(at)),
});

function folderAt(read: Reader, block: Buffer, folder: number, isOuter: boolean): Folder {
  const found: Folder = { kept: [], inner: [], dropped: false };
  const entries = read.half(folder);
  for (let at = folder + 2; at < folder + 2 + 12 * entries; at += 12) {
    const [tag, type, count] = [read.half(at), read.half(at + 2), read.whole(at + 4)];
    if (isOuter && tag === tagOfExifFolder) {
      const inside = folderAt(read, block, read.whole(at + 8), false);
      found.inner = inside.kept;
      found.dropped ||= inside.dropped;
      continue;
    }
    const bytes = (bytesOfType[type] ?? 0) * count;
    const from = bytes <= 4 ? at + 8 : read.whole(at + 8);
    if (!harmless.has(tag) || bytes === 0) found.dropped = true;
    else if (from + bytes > block.length) throw new RangeError("a value ends behind the block");
    else found.kept.push({ tag, type, count, value: block.subarray(from, from + bytes) });
  }
  // A second folder holds the thumbnail, which is a picture with notes of its own.
  found.dropped ||= read.whole(folder + 2 + 12 * entries) !== 0;
  return found;
}

const headBytes = 8;

function written(outer: readonly Field[], inner: readonly Field[], little: boolean): Buffer {
  const start = Buffer.from(little ? "II*\0\x08\0\0\0" : "MM\0*\0\0\0\x08", "latin1");
  const pointer = Buffer.alloc(4);
  const link: Field[] = inner.length > 0 ? [{ tag: tagOfExifFolder, type: 4, count: 1, value: pointer }] : [];
  const fields = [...outer, ...link].sort((a, b) => a.tag - b.tag);
  const innerAt = headBytes + folderBytes(fields);
  if (little) pointer.writeUInt32LE(innerAt);
  else pointer.writeUInt32BE(innerAt);
  return Buffer.concat([
    start,
    folderOf(fields, headBytes, little),
    ...(inner.length > 0 ? [folderOf(inner, innerAt, little)] : []),
  ]);
}

const even = (bytes: number) => bytes + (bytes % 2);
const outside = ({ value }: Field) => (value.length > 4 ? even(value.length) : 0);
const folderBytes = (fields: readonly Field[]) =>
  2 + 12 * fields.length + 4 + fields.reduce((sum, field) => sum + outside(field), 0);

function folderOf(fields: readonly Field[], at: number, little: boolean): Buffer {
  const folder = Buffer.alloc(folderBytes(fields));
  const half = (value: number, to: number) =>
    little ? folder.writeUInt16LE(value, to) : folder.writeUInt16BE(value, to);
  const whole = (value: number, to: number) =>
    little ? folder.writeUInt32LE(value, to) : folder.writeUInt32BE(value, to);
  half(fields.length, 0);
  let free = 2 + 12 * fields.length + 4;
  for (const [index, field] of fields.entries()) {
    const entry = 2 + 12 * index;
    half(field.tag, entry);
    half(field.type, entry + 2);
    whole(field.count, entry + 4);
    if (field.value.length <= 4) field.value.copy(folder, entry + 8);
    else {
      whole(at + free, entry + 8);
      field.value.copy(folder, free);
      free += outside(field);
    }
  }
  return folder;
}
