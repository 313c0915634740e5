import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { InputError } from "../../core/input-error.ts";
import { withoutPlace } from "./without-place.ts";

/** 51° 30' N, as cameras write it, and the words of an XMP packet that says the same. */
const gps = { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1", GPSLongitudeRef: "W", GPSLongitude: "0/1 7/1 0/1" };
const xmp = `<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="51,30.0N"/></rdf:RDF></x:xmpmeta><?xpacket end="w"?>`;

const noise = Buffer.from(Array.from({ length: 90 * 60 * 3 }, (_, at) => (at * 7919) % 251));
const picture = () => sharp(noise, { raw: { width: 90, height: 60, channels: 3 } });
const placed = () =>
  picture()
    .withMetadata({ orientation: 6 })
    .withExifMerge({
      IFD0: { Copyright: "the shed", ImageDescription: "behind the shed at 51.5 N" },
      IFD2: { DateTimeOriginal: "2026:04:16 09:30:00", FocalLengthIn35mmFilm: "26", MakerNote: "51.5 N" },
      IFD3: gps,
    })
    .withXmp(xmp);

const kinds = [
  ["image/jpeg", () => placed().jpeg({ quality: 95 }).toBuffer()],
  ["image/jpeg", () => placed().jpeg({ progressive: true }).toBuffer()],
  ["image/png", () => placed().png().toBuffer()],
  ["image/webp", () => placed().webp({ lossless: true }).toBuffer()],
  ["image/webp", () => placed().webp({ quality: 60 }).toBuffer()],
] as const;

/** GPS folder, its pointer (tag 0x8825 in either order), and the words. */
const tellsPlace = (bytes: Buffer, exif: Buffer | undefined) =>
  /51\.5 N|GPSLatitude|51,30/.test(bytes.toString("latin1")) ||
  (exif !== undefined && (exif.includes(Buffer.from([0x88, 0x25])) || exif.includes(Buffer.from([0x25, 0x88]))));

describe("a photograph that leaves the shop", () => {
  test.each(kinds)("%s: no place, the same pixels, upright and dated as before", async (mediaType, make) => {
    const original = await make();
    expect(tellsPlace(original, (await sharp(original).metadata()).exif), "the test's own picture has a place").toBe(
      true,
    );
    const leaving = withoutPlace(original, mediaType);
    const { exif, xmp: left, orientation } = await sharp(leaving).metadata();
    expect(tellsPlace(leaving, exif)).toBe(false);
    expect(left).toBeUndefined();
    expect(orientation).toBe(6);
    expect(exif!.toString("latin1")).toContain("2026:04:16 09:30:00");
    expect((await sharp(leaving).raw().toBuffer()).equals(await sharp(original).raw().toBuffer())).toBe(true);
    expect(withoutPlace(leaving, mediaType), "left alone when nothing is to be left out").toBe(leaving);
  });

  test.each([
    ["image/jpeg", () => picture().withMetadata({ orientation: 6 }).jpeg().toBuffer()],
    ["image/png", () => picture().png().toBuffer()],
    ["image/webp", () => picture().webp().toBuffer()],
  ] as const)("%s without notes: byte for byte", async (mediaType, make) => {
    const original = await make();
    expect(withoutPlace(original, mediaType)).toBe(original);
  });

  test("what a camera hangs on behind the picture stays at home: a film, a second picture", async () => {
    const original = await picture().jpeg().toBuffer();
    const film = Buffer.concat([original, Buffer.from("ftypmp42 \u00a9xyz+51.5000-000.1200/", "latin1"), original]);
    expect(withoutPlace(film, "image/jpeg").equals(original)).toBe(true);
  });

  test.each([
    ["image/jpeg", (whole: Buffer) => whole.subarray(0, 300)],
    ["image/png", (whole: Buffer) => whole.subarray(0, 300)],
    ["image/webp", (whole: Buffer) => whole.subarray(0, 300)],
  ] as const)("%s cut short is refused, not given away unread", async (mediaType, cut) => {
    const [, make] = kinds.find(([kind]) => kind === mediaType)!;
    expect(() => withoutPlace(cut(Buffer.from([])), mediaType)).toThrow(InputError);
    const whole = await make();
    expect(() => withoutPlace(cut(whole), mediaType)).toThrow(InputError);
  });
});
