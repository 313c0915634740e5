import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { InputError } from "../../core/input-error.ts";
import { seededRandom } from "../../core/numeric/random.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import { withoutPlace } from "../../store/leaving/without-place.ts";
import { decodePhoto, openedPhoto, previewOf, readPhoto } from "./read-photo.ts";

const coupon = "tests/pictures/coupons/1af-1604.jpg";
/** Made once for all tests of this file. */
const folder = mkdtempSync(join(tmpdir(), "coatwright-photos-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const inFolder = (name: string) => join(folder, name);
/** Left half red, right half blue. */
const twoColours = () => {
  const rgb = Buffer.alloc(40 * 20 * 3);
  for (let at = 0; at < 800; at++) rgb[at * 3 + (at % 40 < 20 ? 0 : 2)] = 200;
  return sharp(rgb, { raw: { width: 40, height: 20, channels: 3 } });
};
const grey = { create: { width: 64, height: 48, channels: 3, background: "#777" } } as const;

beforeAll(async () => {
  const bytes = readFileSync(coupon);
  writeFileSync(inFolder("empty.jpg"), "");
  writeFileSync(inFolder("text.jpg"), "coupon 14: orange at the lower edge\n");
  writeFileSync(inFolder("drawing.jpg"), `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>`);
  writeFileSync(inFolder("heic.jpg"), Buffer.from("\0\0\0\x18ftypheic\0\0\0\0mif1heic", "latin1"));
  writeFileSync(inFolder("half.jpg"), bytes.subarray(0, bytes.length / 2));
  writeFileSync(inFolder("broken.jpg"), Buffer.concat([bytes.subarray(0, 3), Buffer.alloc(2000, 7)]));
  writeFileSync(inFolder("flipped.jpg"), flipped(bytes));
  // A head that announces twice as many rows as its pixels fill, with the end marker in its place.
  const taller = Buffer.from(bytes);
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]));
  taller.writeUInt16BE(2 * bytes.readUInt16BE(frame + 5), frame + 5);
  writeFileSync(inFolder("taller.jpg"), taller);
  await sharp({ create: { width: 30_000, height: 20, channels: 3, background: "#777" } })
    .jpeg()
    .toFile(inFolder("wide.jpg"));
  await sharp({ create: { width: 9000, height: 9000, channels: 3, background: "#777" } })
    .png()
    .toFile(inFolder("large.png"));
  await sharp(grey).toColourspace("cmyk").jpeg().toFile(inFolder("cmyk.jpg"));
  await sharp(grey).toColourspace("rgb16").png().toFile(inFolder("deep.png"));
  await sharp(grey).toColourspace("b-w").jpeg().toFile(inFolder("grey.jpg"));
  await sharp({ create: { ...grey.create, channels: 4, background: "#7778" } })
    .png()
    .toFile(inFolder("clear.png"));
  const frames = await Promise.all(
    ["#777", "#a43"].map((background) =>
      sharp({ create: { ...grey.create, background } })
        .png()
        .toBuffer(),
    ),
  );
  await sharp(frames, { join: { animated: true } })
    .webp({ delay: [100, 100] })
    .toFile(inFolder("moving.webp"));
  // Blocks put between a file's first block and the rest: a foreign profile, an hour's worth of notes, a second picture announced.
  const between = (head: number, block: Buffer, of = bytes) =>
    Buffer.concat([of.subarray(0, head), block, of.subarray(head)]);
  const profile = (text: string, tags = 0) => {
    const icc = Buffer.alloc(200);
    icc.writeUInt32BE(tags, 128);
    icc.write(text, 16, "latin1");
    icc.write("acsp", 36, "latin1");
    return jpegBlock(0xe2, Buffer.concat([Buffer.from("ICC_PROFILE\0\x01\x01", "latin1"), icc]));
  };
  writeFileSync(inFolder("print-profile.jpg"), between(2, profile("CMYK")));
  writeFileSync(inFolder("broken-profile.jpg"), between(2, profile("RGB ", 9)));
  await sharp(grey).avif().toFile(inFolder("new.avif"));
  await sharp(grey).gif().toFile(inFolder("still.gif"));
  await sharp(grey).tiff().toFile(inFolder("raw.dng"));
  const notes = Buffer.concat(Array.from({ length: 80 }, () => jpegBlock(0xed, Buffer.alloc(60_000, 65))));
  writeFileSync(inFolder("notes.jpg"), between(2, notes));
  const still = await sharp(grey).png().toBuffer();
  // Length 8, "acTL", two frames for ever, and a checksum nobody asks for before the pixels.
  const announced = Buffer.from([0, 0, 0, 8, 0x61, 0x63, 0x54, 0x4c, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0]);
  writeFileSync(inFolder("moving.png"), between(33, announced, still));
}, 60_000);

/** Some bytes of the pixels turned over, as a failing card leaves them: the decoder goes on and fills with grey what it cannot read. */
function flipped(whole: Buffer): Buffer {
  const bytes = Buffer.from(whole);
  const scan = bytes.indexOf(Buffer.from([0xff, 0xda])) + 1000;
  for (let at = scan; at < bytes.length - 1000; at += 997) bytes[at]! ^= 0xff;
  return bytes;
}

function jpegBlock(marker: number, data: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(data.length + 2, 2);
  return Buffer.concat([head, data]);
}

describe("photographs that are refused", () => {
  test.each([
    ["empty.jpg", /empty file \(0 bytes\)/],
    ["text.jpg", /not a picture of a known kind.*expected a JPEG, PNG or WebP/],
    ["drawing.jpg", /not a picture of a known kind/],
    ["heic.jpg", /HEIC.*most compatible/],
    ["half.jpg", /damaged or cut short/],
    ["broken.jpg", /damaged or cut short/],
    ["flipped.jpg", /damaged or cut short/],
    ["taller.jpg", /damaged or cut short.*expected a complete picture/],
    ["wide.jpg", /30000 x 20 px.*at most 16000 px on a side/],
    ["large.png", /9000 x 9000 px.*70 million pixels/],
    ["cmyk.jpg", /CMYK/],
    ["deep.png", /16 bits per channel/],
    ["grey.jpg", /without colour/],
    ["clear.png", /partly transparent/],
    ["moving.webp", /2 pictures in one file/],
    ["moving.png", /several pictures in one file/],
    ["print-profile.jpg", /colour profile that is broken or not for RGB.*expected sRGB/],
    ["broken-profile.jpg", /colour profile that is broken/],
    ["new.avif", /AVIF.*export it as JPEG/],
    ["still.gif", /GIF.*export it as JPEG/],
    ["raw.dng", /TIFF or a camera's raw file.*export it as JPEG/],
    ["notes.jpg", /4\.8 MB of notes.*at most 4 MB/],
  ])("%s", async (name, message) => {
    const refused = expect(readPhoto(inFolder(name))).rejects;
    await refused.toThrow(message);
    await expect(decodePhoto(inFolder(name))).rejects.toMatchObject({ argument: "photo" });
  });

  test.each(["half.jpg", "flipped.jpg", "taller.jpg"])("%s is told from its smaller picture, too", async (name) => {
    const photo = await openedPhoto(inFolder(name));
    for (const by of [2, 4, 8] as const) await expect(photo.decoded(by)).rejects.toThrow(/damaged or cut short/);
  });
});

describe("photographs that are taken", () => {
  test("a phone's JPEG: size, kind; no date in it, so none is made up", async () => {
    expect(await readPhoto(coupon)).toEqual({ widthPx: 1200, heightPx: 1600, takenAt: null, mediaType: "image/jpeg" });
  });

  test("a few bytes too many between two blocks, as some cameras write them, are no damage: taken, and given back", async () => {
    const bytes = readFileSync(coupon);
    const padded = Buffer.concat([bytes.subarray(0, 20), Buffer.alloc(3), bytes.subarray(20)]);
    writeFileSync(inFolder("padded.jpg"), padded);
    expect(bytes.readUInt16BE(4) + 4, "right behind the first block").toBe(20);
    await expect(sharp(padded, { failOn: "warning" }).raw().toBuffer()).rejects.toThrow(/3 extraneous bytes/);
    expect(await readPhoto(inFolder("padded.jpg"))).toMatchObject({ widthPx: 1200 });
    expect(withoutPlace(padded, "image/jpeg").equals(bytes)).toBe(true);
  });

  test.each(["png", "webp"] as const)("%s is taken too", async (format) => {
    await twoColours()
      .toFormat(format)
      .toFile(inFolder(`taken.${format}`));
    expect(await readPhoto(inFolder(`taken.${format}`))).toMatchObject({ widthPx: 40, mediaType: `image/${format}` });
  });

  test("the date stands as the camera wrote it, with its offset from UTC", async () => {
    const exif = { IFD2: { DateTimeOriginal: "2026:04:16 09:30:00", OffsetTimeOriginal: "+02:00" } };
    await twoColours().withExif(exif).jpeg().toFile(inFolder("dated.jpg"));
    expect((await readPhoto(inFolder("dated.jpg"))).takenAt).toBe("2026-04-16T09:30:00+02:00");
  });

  test("lying on its side by EXIF, it stands upright: red above blue", async () => {
    await twoColours().withMetadata({ orientation: 6 }).jpeg().toFile(inFolder("side.jpg"));
    expect(await readPhoto(inFolder("side.jpg"))).toMatchObject({ widthPx: 20, heightPx: 40 });
    const { widthPx, heightPx, rgb } = await decodePhoto(inFolder("side.jpg"));
    expect([widthPx, heightPx]).toEqual([20, 40]);
    expect(rgb[3 * (5 * 20 + 10)]).toBeGreaterThan(150);
    expect(rgb[3 * (35 * 20 + 10) + 2]).toBeGreaterThan(150);
  });

  test.each([
    // taken     asked for   decoded
    [[400, 200], 2, [200, 100]],
    [[401, 203], 2, [200, 101]],
    [[400, 200], 4, [100, 50]],
  ] as const)(
    "a JPEG of %j px at one part in %i of its sides: %j px, turned upright, red above blue",
    async (taken, by, decoded) => {
      await twoColours()
        .resize(taken[0], taken[1], { fit: "fill" })
        .withMetadata({ orientation: 6 })
        .jpeg()
        .toFile(inFolder("small.jpg"));
      const photo = await openedPhoto(inFolder("small.jpg"));
      expect([photo.heightPx, photo.widthPx]).toEqual(taken);
      const { widthPx, heightPx, rgb, shrink } = await photo.decoded(by);
      expect([heightPx, widthPx]).toEqual(decoded);
      expect(shrink).toBe(by);
      expect(rgb[3 * (5 * widthPx + 10)]).toBeGreaterThan(150);
      expect(rgb[3 * ((heightPx - 5) * widthPx + 10) + 2]).toBeGreaterThan(150);
    },
  );

  test("brackets in a file's name are no option for its decoder", async () => {
    const name = inFolder("coupon [14][shrink=4].jpg");
    writeFileSync(name, readFileSync(coupon));
    const photo = await openedPhoto(name);
    expect([photo.widthPx, (await photo.decoded(1)).widthPx, (await photo.decoded(2)).widthPx]).toEqual([
      1200, 1200, 600,
    ]);
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8] as const)(
    "a part of a photograph with EXIF turn %i is that part of the whole, upright",
    async (orientation) => {
      const ramp = Uint8Array.from(
        { length: 96 * 60 * 3 },
        (_, at) => (Math.floor(at / 3) % 96) + 2 * Math.floor(at / 288),
      );
      await sharp(ramp, { raw: { width: 96, height: 60, channels: 3 } })
        .withMetadata({ orientation })
        .jpeg({ quality: 100, chromaSubsampling: "4:4:4" })
        .toFile(inFolder("ramp.jpg"));
      const photo = await openedPhoto(inFolder("ramp.jpg"));
      const whole = await photo.decoded(1);
      const part = { left: 10, top: 20, widthPx: 40, heightPx: 30 };
      const same = await photo.part(part, 1);
      const half = await photo.part(part, 2);
      expect([same.widthPx, same.heightPx, half.widthPx, half.heightPx]).toEqual([40, 30, 20, 15]);
      const at = (picture: RgbImage, column: number, row: number) => picture.rgb[3 * (row * picture.widthPx + column)]!;
      expect(at(same, 7, 9)).toBe(at(whole, 17, 29));
      expect(Math.abs(at(half, 5, 6) - (at(whole, 20, 32) + at(whole, 21, 33)) / 2)).toBeLessThanOrEqual(2);
    },
  );

  test("an embedded wide-gamut profile is brought to sRGB: the colour stays, the numbers change", async () => {
    const colour = { create: { width: 16, height: 16, channels: 3, background: { r: 160, g: 90, b: 50 } } } as const;
    await sharp(colour).withIccProfile("p3").png().toFile(inFolder("p3.png"));
    const stored = await sharp(inFolder("p3.png"), { ignoreIcc: true }).raw().toBuffer();
    const { rgb } = await decodePhoto(inFolder("p3.png"));
    expect(Math.abs(stored[0]! - 160)).toBeGreaterThan(4);
    for (const [channel, value] of [160, 90, 50].entries())
      expect(Math.abs(rgb[channel]! - value)).toBeLessThanOrEqual(1);
  });

  test("an opaque picture with an alpha channel is one like any other", async () => {
    await twoColours().ensureAlpha().png().toFile(inFolder("opaque.png"));
    expect((await decodePhoto(inFolder("opaque.png"))).rgb.length).toBe(40 * 20 * 3);
  });

  test("the camera's focal length scales with the picture; without one it is a phone's main camera", async () => {
    // 50 mm on the 43.27 mm diagonal of the 35 mm frame; the picture's diagonal is √(40² + 20²) = 44.72 px.
    await twoColours()
      .withExif({ IFD2: { FocalLengthIn35mmFilm: "50" } })
      .jpeg()
      .toFile(inFolder("portrait.jpg"));
    expect((await decodePhoto(inFolder("portrait.jpg"))).focalPx).toBeCloseTo((50 / 43.27) * 44.72, 1);
    expect((await decodePhoto(inFolder("taken.png"))).focalPx).toBeCloseTo((26 / 43.27) * 44.72, 1);
  });

  test("a preview is small, upright and carries no metadata", async () => {
    const preview = await sharp(await previewOf(inFolder("side.jpg"), 10)).metadata();
    expect([preview.width, preview.height]).toEqual([10, 20]);
    expect(preview.exif).toBeUndefined();
  });
});

test("of many photographs that come at once two are worked on, the others wait", async () => {
  let most = 0;
  const watch = setInterval(() => {
    // Not those in its queue: one that steps from there to its thread between the two readings would count twice.
    most = Math.max(most, sharp.counters().process);
  }, 1);
  await Promise.all([1, 2, 3, 4, 5, 6].flatMap(() => [readPhoto(coupon), previewOf(coupon, 320)]));
  clearInterval(watch);
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThanOrEqual(2);
});

test("whatever is damaged in a file: what is taken can be given back, without its place", async () => {
  const whole = await sharp(coupon).resize(300).jpeg({ quality: 85 }).toBuffer();
  const random = seededRandom(20_261);
  let taken = 0;
  for (let file = 0; file < 60; file++) {
    const damaged = Buffer.from(whole);
    for (let byte = 0; byte <= file % 12; byte++) damaged[2 + random.below(whole.length - 4)] = random.below(256);
    writeFileSync(inFolder("damaged.jpg"), damaged);
    const facts = await readPhoto(inFolder("damaged.jpg")).catch((error: unknown) => error);
    if (facts instanceof InputError) continue;
    expect(facts).toMatchObject({ mediaType: "image/jpeg" });
    withoutPlace(damaged, "image/jpeg");
    taken++;
  }
  expect(taken).toBeGreaterThan(0);
  expect(taken).toBeLessThan(60);
});
