/** When a photograph was taken, from its EXIF block. */
import { exifText } from "./exif-block.ts";

const tagOfDateTimeOriginal = 0x9003;
const tagOfOffsetOriginal = 0x9011;

/** As the camera wrote it: `2026-04-16T09:30:00`, with `+02:00` only where the camera knew it; null when it says nothing readable. */
export function exifTakenAt(exif: Buffer | undefined): string | null {
  const taken = exifText(exif, tagOfDateTimeOriginal)?.match(/^(\d{4}):(\d{2}):(\d{2}) (\d{2}:\d{2}:\d{2})$/);
  if (!taken) return null;
  const offset = exifText(exif, tagOfOffsetOriginal) ?? "";
  return `${taken[1]}-${taken[2]}-${taken[3]}T${taken[4]}${/^[+-]\d{2}:\d{2}$/.test(offset) ? offset : ""}`;
}
