/** A photograph on disk: what it is, what is refused, and its pixels upright in sRGB. */
import { open, readFile } from "node:fs/promises";
import sharp, { type FailOnOptions, type Metadata, type Sharp } from "sharp";
import { isHeicHead } from "../../api/heic-head.ts";
import type { Photo } from "../../api/photo.ts";
import { InputError } from "../../core/input-error.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import type { Shrink } from "../../core/vision/working-size.ts";
import { withoutPlace } from "../../store/leaving/without-place.ts";
import { turns } from "../in-turn.ts";
import { beforePixels } from "./before-pixels.ts";
import { focalPxOf } from "./exif-focal-length.ts";
import { exifTakenAt } from "./exif-taken-at.ts";

/** Our own limits: the largest phone pictures of today in their usual modes, and 200 MB of pixels in memory. */
export const photoLimits = { sidePx: 16_000, pixels: 70_000_000, notesBytes: 4_000_000 } as const;

const accepted = "a JPEG, PNG or WebP photograph";
const mediaTypes = { jpeg: "image/jpeg", png: "image/png", webp: "image/webp" } as const;
type Format = keyof typeof mediaTypes;

export type PhotoFacts = Pick<Photo, "widthPx" | "heightPx" | "takenAt" | "mediaType">;

/**
 * Whole pictures at once beside the server's other work. One may need 700 MB (a turned progressive JPEG at the limit), and
 * what reads files for other requests has four threads in all.
 */
const decodedAtOnce = turns(2);

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const giveBack = await decodedAtOnce.take();
  return work().finally(giveBack);
}

/** Size (upright), media type and date of a photograph, after one full decode. Refuses what cannot be rated. */
export const readPhoto = (path: string): Promise<PhotoFacts> =>
  inTurn(async () => {
    const { metadata, format } = await openPhoto(path);
    // Only reading every row finds a file that stops in the middle.
    await decodingWhole((failOn) => upright(path, failOn).resize({ width: 64 }).raw().toBuffer());
    // What could not be given back without its place is not taken.
    withoutPlace(await readFile(path), mediaTypes[format]);
    return {
      ...uprightSize(metadata),
      takenAt: exifTakenAt(metadata.exif),
      mediaType: mediaTypes[format],
    };
  });

export type DecodedPhoto = RgbImage & {
  /** The camera's focal length in px of this picture. */
  focalPx: number;
  /** Px of the photograph's own per px of this picture. */
  shrink: number;
};

type Size = { widthPx: number; heightPx: number };

/** A part of an upright photograph: first column and row, px of the whole, and its size. */
export type PhotoPart = Size & { left: number; top: number };

/** A photograph that was looked into once and may be decoded several times; its size as it is seen upright. */
export type OpenedPhoto = Size & {
  /** All pixels, upright in sRGB, at one part in `by` of its sides. */
  decoded(by: Shrink): Promise<DecodedPhoto>;
  /** A part of them; all four numbers of `part` are multiples of `by`. What lies below it is not read, so only the whole tells whether a file is complete. */
  part(part: PhotoPart, by: Shrink): Promise<RgbImage>;
};

export async function openedPhoto(path: string): Promise<OpenedPhoto> {
  const opened = await openPhoto(path);
  const { metadata } = opened;
  return {
    ...uprightSize(metadata),
    async decoded(by) {
      const image = await decodingWhole((failOn) => pixelsOf(smaller(path, opened, by, failOn).autoOrient()));
      return { ...image, focalPx: focalPxOf(metadata.exif, image), shrink: by };
    },
    part: (part, by) => decoding(() => pixelsOf(cutUpright(path, opened, part, by))),
  };
}

/** All pixels of a photograph, turned as the EXIF says, in sRGB by the embedded profile. */
export async function decodePhoto(path: string): Promise<DecodedPhoto> {
  const opened = await openedPhoto(path);
  return opened.decoded(1);
}

async function pixelsOf(picture: Sharp): Promise<RgbImage> {
  const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, rgb: new Uint8Array(data.buffer, data.byteOffset, data.length) };
}

/**
 * At one part in `by` of its sides, as it is stored. A JPEG's decoder makes the smaller picture itself out of fewer frequencies, which spares it most of
 * its work; libvips hands it that wish from behind the file's name. Odd last rows and columns are left out.
 */
function smaller(path: string, { metadata, format }: Opened, by: Shrink, failOn: FailOn = "truncated"): Sharp {
  if (by === 1) return asStored(path, failOn);
  if (format === "jpeg") return asStored(`${path}[shrink=${by}]`, failOn);
  const [width, height] = [Math.floor(metadata.width / by), Math.floor(metadata.height / by)];
  return asStored(path, failOn)
    .extract({ left: 0, top: 0, width: width * by, height: height * by })
    .resize({ width, height });
}

/** By EXIF orientation: the turn that sets a picture upright, degrees clockwise. Mirrored ones are left to the decoder. */
const turnsDeg: Partial<Record<number, 90 | 180 | 270>> = { 3: 180, 6: 90, 8: 270 };

/** The decoder turns the whole photograph before it cuts; cut first and turned last, a part is upright in two thirds of the time. */
function cutUpright(path: string, opened: Opened, part: PhotoPart, by: Shrink): Sharp {
  const { metadata } = opened;
  const turnDeg = turnsDeg[metadata.orientation ?? 1];
  const cut = turnDeg ? whereStored(part, uprightSize(metadata), turnDeg) : part;
  const stored = smaller(path, opened, by);
  const picture = (turnDeg ? stored : stored.autoOrient()).extract({
    ...{ left: Math.floor(cut.left / by), top: Math.floor(cut.top / by) },
    ...{ width: cut.widthPx / by, height: cut.heightPx / by },
  });
  return turnDeg ? picture.rotate(turnDeg) : picture;
}

/** Where a part of the upright photograph lies in the file. */
function whereStored({ left, top, widthPx, heightPx }: PhotoPart, whole: Size, turnDeg: 90 | 180 | 270): PhotoPart {
  const [right, below] = [whole.widthPx - left - widthPx, whole.heightPx - top - heightPx];
  if (turnDeg === 180) return { left: right, top: below, widthPx, heightPx };
  const lying = { widthPx: heightPx, heightPx: widthPx };
  return turnDeg === 90 ? { left: top, top: right, ...lying } : { left: below, top: left, ...lying };
}

function uprightSize({ orientation, width, height }: Metadata): Size {
  const turned = (orientation ?? 1) >= 5;
  return { widthPx: turned ? height : width, heightPx: turned ? width : height };
}

/** A JPEG of at most `widthPx`, upright, in sRGB, without metadata: to show while the rest is still being worked on. */
export const previewOf = (path: string, widthPx: number): Promise<Buffer> =>
  inTurn(async () => {
    await openPhoto(path);
    return decoding(() =>
      upright(path).resize({ width: widthPx, withoutEnlargement: true }).jpeg({ quality: 82 }).toBuffer(),
    );
  });

const upright = (path: string, failOn?: FailOn) => asStored(path, failOn).autoOrient();

type FailOn = Extract<FailOnOptions, "truncated" | "warning">;

function asStored(path: string, failOn: FailOn = "truncated"): Sharp {
  return sharp(path, { failOn, limitInputPixels: photoLimits.pixels, sequentialRead: true })
    .toColourspace("srgb")
    .removeAlpha();
}

type Opened = { metadata: Metadata; format: Format };

async function openPhoto(path: string): Promise<Opened> {
  // The first bytes decide before any decoder sees the file: a drawing or a document named .jpg never reaches one.
  const format = await formatByFirstBytes(path);
  const before = await beforePixels(path, format);
  if (before.bytes > photoLimits.notesBytes)
    throw new InputError(
      "photo",
      `${(before.bytes / 1e6).toFixed(1)} MB of notes before its pixels`,
      `at most ${photoLimits.notesBytes / 1e6} MB: export it anew as JPEG`,
    );
  if (before.animated) throw new InputError("photo", "several pictures in one file", "a single picture");
  const metadata = await decoding(() => sharp(path, { limitInputPixels: false }).metadata());
  const { width, height } = metadata;
  if (width > photoLimits.sidePx || height > photoLimits.sidePx || width * height > photoLimits.pixels)
    throw new InputError(
      "photo",
      `${width} x ${height} px`,
      `at most ${photoLimits.sidePx} px on a side and ${photoLimits.pixels / 1e6} million pixels: make a smaller copy`,
    );
  if (metadata.space === "cmyk")
    throw new InputError("photo", "CMYK (for print)", "RGB: printing colours cannot be rated");
  if (metadata.space === "b-w" || metadata.space === "grey16")
    throw new InputError("photo", "without colour", "a colour photograph: rust is told by its colour");
  if (metadata.icc && !isRgbProfile(metadata.icc))
    throw new InputError("photo", "a colour profile that is broken or not for RGB", "sRGB: export it anew as JPEG");
  if (metadata.depth !== "uchar")
    throw new InputError("photo", "16 bits per channel", "8 bits per channel: export it as JPEG");
  if ((metadata.pages ?? 1) > 1)
    throw new InputError("photo", `${metadata.pages} pictures in one file`, "a single picture");
  if (metadata.hasAlpha && !(await decoding(() => sharp(path).stats())).isOpaque)
    throw new InputError("photo", "partly transparent", "an opaque photograph");
  return { metadata, format };
}

/**
 * ICC.1: the colour space stands at byte 16, the signature at byte 36, the table of tags from byte 128. A profile with a table that
 * points outside of it would be passed over by the decoder without a word, and the colours be taken for sRGB.
 */
function isRgbProfile(icc: Buffer): boolean {
  if (icc.toString("latin1", 16, 20) !== "RGB " || icc.toString("latin1", 36, 40) !== "acsp") return false;
  const tags = icc.length < 132 ? 0 : icc.readUInt32BE(128);
  if (tags === 0 || 132 + 12 * tags > icc.length) return false;
  const ends = Array.from(
    { length: tags },
    (_, at) => icc.readUInt32BE(136 + 12 * at) + icc.readUInt32BE(140 + 12 * at),
  );
  return ends.every((end) => end <= icc.length);
}

async function formatByFirstBytes(path: string): Promise<Format> {
  const file = await open(path, "r");
  const head = Buffer.alloc(16);
  const { bytesRead } = await file.read(head, 0, 16, 0).finally(() => file.close());
  if (bytesRead === 0) throw new InputError("photo", "an empty file (0 bytes)", accepted);
  if (head[0] === 0xff && head[1] === 0xd8 && head[2] === 0xff) return "jpeg";
  if (head.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return "png";
  const text = head.toString("latin1");
  if (text.startsWith("RIFF") && text.slice(8, 12) === "WEBP") return "webp";
  if (isHeicHead(head))
    throw new InputError(
      "photo",
      "HEIC",
      `${accepted}: set the phone's camera to "most compatible" (JPEG), or share the picture as JPEG`,
    );
  const other = otherKind(head);
  if (other) throw new InputError("photo", other, `${accepted}: export it as JPEG`);
  throw new InputError("photo", "not a picture of a known kind, whatever its name says", accepted);
}

/** Kinds of picture that phones and cameras write, too, by their first bytes. */
function otherKind(head: Buffer): string | null {
  const text = head.toString("latin1");
  if (/^(II\*\0|MM\0\*)/.test(text)) return "TIFF or a camera's raw file";
  if (/^GIF8[79]a/.test(text)) return "GIF";
  return /^ftypavi[fs]/.test(text.slice(4)) ? "AVIF" : null;
}

/** What the decoder throws is about the file, so it becomes a refusal in the user's words. */
async function decoding<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof InputError) throw error;
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    throw new InputError("photo", `damaged or cut short (${reason})`, "a complete picture: copy or take it again");
  }
}

/**
 * What the JPEG decoder warns of when pixels are missing that the head of the file announced, or were read out of step; it fills them with grey
 * and ends without an error. Its other warnings (a few bytes too many before a marker, odd numbers in a head) stand in good files of phones, too.
 * The words are those of libjpeg (jerror.h).
 */
const lostPixels = /premature end|bad Huffman code|bad arithmetic code|instead of RST/i;

/** Only the first warning is told, and it ends the decoding: after a harmless one the file is decoded again as far as it goes. */
async function decodingWhole<T>(work: (failOn: FailOn) => Promise<T>): Promise<T> {
  return decoding(() =>
    work("warning").catch((error: unknown) => {
      if (error instanceof Error && lostPixels.test(error.message)) throw error;
      return work("truncated");
    }),
  );
}
