/** When a photograph was taken, from its EXIF block. Nothing else of the block is read: places stay where they are. */

const tagOfExifFolder = 0x8769;
const tagOfDateTimeOriginal = 0x9003;
const tagOfOffsetOriginal = 0x9011;

/** As the camera wrote it: `2026-04-16T09:30:00`, with `+02:00` only where the camera knew it; null when it says nothing readable. */
export function exifTakenAt(exif: Buffer | undefined): string | null {
  if (!exif) return null;
  try {
    const start = exif.subarray(0, 4).toString("latin1") === "Exif" ? 6 : 0;
    const block = exif.subarray(start);
    const little = block.subarray(0, 2).toString("latin1") === "II";
    const whole = (at: number) => (little ? block.readUInt32LE(at) : block.readUInt32BE(at));
    const half = (at: number) => (little ? block.readUInt16LE(at) : block.readUInt16BE(at));
    /** Where in the folder of tags at `folder` the tag's twelve bytes stand. */
    const entry = (folder: number, tag: number): number | null => {
      const count = half(folder);
      for (let i = 0; i < count; i++) if (half(folder + 2 + 12 * i) === tag) return folder + 2 + 12 * i;
      return null;
    };
    const text = (at: number | null): string | null => {
      if (at === null) return null;
      const length = whole(at + 4);
      const from = length <= 4 ? at + 8 : whole(at + 8);
      return block
        .subarray(from, from + length)
        .toString("latin1")
        .split("\0")[0]!
        .trim();
    };
    const pointer = entry(whole(4), tagOfExifFolder);
    if (pointer === null) return null;
    const folder = whole(pointer + 8);
    const taken = text(entry(folder, tagOfDateTimeOriginal))?.match(/^(\d{4}):(\d{2}):(\d{2}) (\d{2}:\d{2}:\d{2})$/);
    if (!taken) return null;
    const offset = text(entry(folder, tagOfOffsetOriginal)) ?? "";
    return `${taken[1]}-${taken[2]}-${taken[3]}T${taken[4]}${/^[+-]\d{2}:\d{2}$/.test(offset) ? offset : ""}`;
  } catch (error) {
    // A block that points outside itself: the picture is fine, only its date is unknown.
    if (error instanceof RangeError) return null;
    throw error;
  }
}
