/** Single fields of a photograph's EXIF block. Nothing else of it is read: where it was taken stays unknown here. */

const tagOfExifFolder = 0x8769;

/** A text field of the EXIF folder; null when it is not there or the block is broken. */
export function exifText(exif: Buffer | undefined, tag: number): string | null {
  return inBlock(exif, ({ block, whole, entry }) => {
    const at = entry(tag);
    if (at === null) return null;
    const length = whole(at + 4);
    const from = length <= 4 ? at + 8 : whole(at + 8);
    return block
      .subarray(from, from + length)
      .toString("latin1")
      .split("\0")[0]!
      .trim();
  });
}

/** A small whole number of the EXIF folder (type SHORT); null when it is not there or the block is broken. */
export function exifNumber(exif: Buffer | undefined, tag: number): number | null {
  return inBlock(exif, ({ half, entry }) => {
    const at = entry(tag);
    return at === null ? null : half(at + 8);
  });
}

type Block = {
  block: Buffer;
  whole: (at: number) => number;
  half: (at: number) => number;
  /** Where the tag's twelve bytes stand. */
  entry: (tag: number) => number | null;
};

function inBlock<T>(exif: Buffer | undefined, read: (block: Block) => T | null): T | null {
  if (!exif) return null;
  try {
    const start = exif.subarray(0, 4).toString("latin1") === "Exif" ? 6 : 0;
    const block = exif.subarray(start);
    const little = block.subarray(0, 2).toString("latin1") === "II";
    const whole = (at: number) => (little ? block.readUInt32LE(at) : block.readUInt32BE(at));
    const half = (at: number) => (little ? block.readUInt16LE(at) : block.readUInt16BE(at));
    const find = (folder: number, tag: number): number | null => {
      const count = half(folder);
      for (let i = 0; i < count; i++) if (half(folder + 2 + 12 * i) === tag) return folder + 2 + 12 * i;
      return null;
    };
    const pointer = find(whole(4), tagOfExifFolder);
    if (pointer === null) return null;
    const folder = whole(pointer + 8);
    return read({ block, whole, half, entry: (tag) => find(folder, tag) });
  } catch (error) {
    // A block that points outside itself: the picture is fine, only this is unknown.
    if (error instanceof RangeError) return null;
    throw error;
  }
}
