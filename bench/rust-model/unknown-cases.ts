/** Pictures of unknown scale for choosing how they are read: photographs of the training part, altered, cut to windows, and clean rendered faces. */
import sharp from "sharp";
import { type SeededRandom, seededRandom } from "../../src/core/numeric/random.ts";
import type { RgbImage } from "../../src/core/vision/raster.ts";
import { type Masked, otherLight, recoloured, windowOf } from "./altered.ts";
import { type Picture, renderedCoupons } from "./pictures.ts";

export type Case = Masked & { kind: string; id: string; group: string };

/** Every case of the trial, one after the other, so that they need not all lie in memory. */
export async function* unknownCases(photographs: readonly Picture[], seed: number): AsyncGenerator<Case> {
  const random = seededRandom(seed);
  for (const picture of photographs) {
    const made = (kind: string, masked: Masked): Case => ({ ...masked, kind, id: picture.id, group: picture.group });
    yield made("as it is", picture);
    yield made("equalised", await equalised(picture, 3));
    yield made("strong light", otherLight(picture, random, 1.5));
    yield* cleanWindow(windowOf(picture, random, "none"), made, random);
    const rusty = windowOf(picture, random, "rust");
    if (!rusty) continue;
    yield made("all rust, equalised", await equalised(rusty, 3));
    yield made("all rust, strong light", otherLight(rusty, random, 1.5));
  }
  const clean = photographs.find(({ percent }) => percent === 0)!;
  for (const quality of [50, 70, 90])
    for (const [kind, gains] of lights)
      for (const exposure of [0.5, 1]) {
        const lit = inLight(clean, gains, exposure);
        const photo = { ...lit, image: await asJpeg(noisy(lit.image, random, 4), quality) };
        yield { ...photo, kind: `clean mill scale, ${kind}`, id: `${quality} ${exposure}`, group: clean.group };
      }
  yield* renderedFaces(random, seed);
}

const lights = [
  ["neutral", [1, 1, 1]],
  ["warm", [1.2, 1, 0.75]],
] as const;

async function* cleanWindow(
  window: Masked | null,
  made: (kind: string, masked: Masked) => Case,
  random: SeededRandom,
): AsyncGenerator<Case> {
  if (!window) return;
  yield made("clean window", window);
  yield made("clean window, equalised", await equalised(window, 3));
  const metal = recoloured(window, false, (l, a, b) => [0.5 * l, 0.15 * a, 0.15 * b]);
  yield made("clean window, dark metal", metal);
  yield made("clean window, dark metal in warm light", inLight(metal, [1.2, 1, 0.75], 1));
  yield made("clean window, JPEG 50", { ...window, image: await asJpeg(noisy(window.image, random, 4), 50) });
  const hue = 0.8 + 0.4 * random.next();
  const orange = recoloured(window, false, (l, a, b) => [
    l,
    0.3 * a + 45 * Math.cos(hue) * Math.sqrt(l / 50),
    0.3 * b + 45 * Math.sin(hue) * Math.sqrt(l / 50),
  ]);
  yield made("clean window, orange paint", orange);
}

/** Clean faces and slightly rusted ones: scratches, stains and wear, noise, JPEG of 50 to 95, neutral and warm. */
async function* renderedFaces(random: SeededRandom, seed: number): AsyncGenerator<Case> {
  for (const drawn of await renderedCoupons(1000 + seed, [0, 0.3, 2])) {
    const isClean = drawn.percent === 0;
    const worn = scratched(drawn, random);
    for (const [light, gains] of lights) {
      if (light === "warm" && !isClean) continue;
      const lit = inLight(worn, gains, 0.5 + 0.7 * random.next());
      const image = await asJpeg(noisy(lit.image, random, 1 + random.below(8)), 50 + 5 * random.below(10));
      const sort = isClean ? `clean face, ${light}` : "spots on a face";
      yield { ...lit, image, pxPerMm: null, kind: `rendered: ${sort}`, id: drawn.id, group: "rendered" };
    }
  }
}

/** Adaptive equalisation of each channel, as data sets do it, through JPEG. */
async function equalised(picture: Masked, maxSlope: number): Promise<Masked> {
  const { widthPx, heightPx } = picture.image;
  const size = { width: Math.max(3, widthPx >> 3), height: Math.max(3, heightPx >> 3) };
  const data = await rawOf(picture.image)
    .clahe({ ...size, maxSlope })
    .raw()
    .toBuffer();
  return { ...picture, image: await asJpeg({ widthPx, heightPx, rgb: new Uint8Array(data) }, 90) };
}

/** Light of this colour on the same thing: factors in linear light, near enough as powers of sRGB. */
function inLight(picture: Masked, gains: readonly [number, number, number], exposure: number): Masked {
  const factors = gains.map((gain) => (gain * exposure) ** (1 / 2.2));
  const rgb = picture.image.rgb.map((value, at) => Math.min(255, value * factors[at % 3]!));
  return { ...picture, image: { ...picture.image, rgb } };
}

/** Sensor noise, coarser than one pixel in colour as phones leave it. */
function noisy(image: RgbImage, random: SeededRandom, most: number): RgbImage {
  const rgb = image.rgb.map((value) =>
    Math.min(255, Math.max(0, value + Math.round((random.next() - 0.5) * 2 * most))),
  );
  return { ...image, rgb };
}

/** Bright and dark scratches, a dull stain, a worn place: all grey. */
function scratched(picture: Picture, random: SeededRandom): Picture {
  const { widthPx, heightPx } = picture.image;
  const rgb = picture.image.rgb.slice();
  const add = (x: number, y: number, by: number) => {
    if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) return;
    for (let c = 0; c < 3; c++) {
      const at = (y * widthPx + x) * 3 + c;
      rgb[at] = Math.min(255, Math.max(0, rgb[at]! + by));
    }
  };
  for (let k = 0; k < 12; k++) {
    const [x, y, turn] = [random.next() * widthPx, random.next() * heightPx, random.next() * Math.PI];
    const by = (random.next() - 0.4) * 120;
    for (let t = 0; t < widthPx * 0.4 * random.next(); t += 0.7)
      add(Math.round(x + t * Math.cos(turn)), Math.round(y + t * Math.sin(turn)), by / 2);
  }
  const [midX, midY, radius, by] = [
    random.next() * widthPx,
    random.next() * heightPx,
    widthPx * (0.05 + 0.1 * random.next()),
    (random.next() - 0.5) * 60,
  ];
  for (let y = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++) {
      const near = 1 - Math.hypot(x - midX, y - midY) / radius;
      if (near > 0) add(x, y, by * Math.min(1, 2 * near));
    }
  return { ...picture, image: { widthPx, heightPx, rgb } };
}

async function asJpeg({ widthPx, heightPx, rgb }: RgbImage, quality: number): Promise<RgbImage> {
  const jpeg = await rawOf({ widthPx, heightPx, rgb }).jpeg({ quality, chromaSubsampling: "4:2:0" }).toBuffer();
  return { widthPx, heightPx, rgb: new Uint8Array(await sharp(jpeg).raw().toBuffer()) };
}

function rawOf({ widthPx, heightPx, rgb }: RgbImage) {
  return sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } });
}
