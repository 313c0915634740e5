/**
 * How well the measuring card and the quality gate do on rendered photographs whose truth is known.
 *
 * Scenes: a coupon planned as 100 by 60 mm, cut up to 0.3 mm off that, 3 mm thick, four finishes, on the medium card; 1,400 by 1,050 px; tilt to 35 degrees any way, turn to
 * 25 degrees, three lights, blur, noise, JPEG quality 50 to 95, print error to 3 % (known to the shop). The gate's part: each fault in a
 * degree that spoils a reading, and as many good photographs; what lies between is not labelled.
 *
 *   npx rolldown bench/photo-card.ts --platform node --external sharp --file dist/photo-card.mjs
 *   node dist/photo-card.mjs [--scenes 80] [--of-each 8] [--seed 5]
 *
 * Prints Markdown: errors of size and corners, then refused and passed by fault, with 95 % intervals. docs/measuring-card.md holds a run.
 */
import { parseArgs } from "node:util";
import sharp from "sharp";
import { type SeededRandom, seededRandom } from "../src/core/numeric/random.ts";
import { wilsonInterval } from "../src/core/statistics/wilson-interval.ts";
import { usualFocalShare } from "../src/core/vision/card-pose.ts";
import { findCard } from "../src/core/vision/find-card.ts";
import { findCoupon, isTrusted } from "../src/core/vision/find-coupon.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { seeCoupon } from "../src/server/photos/see-coupon.ts";
import { type CardScene, cleanCoupon, renderCard, rustyCoupon } from "../tests/rendered-card.ts";

const { values: options } = parseArgs({
  options: {
    scenes: { type: "string", default: "80" },
    "of-each": { type: "string", default: "8" },
    seed: { type: "string", default: "5" },
  },
});
const sizeMm = { lengthMm: 100, widthMm: 60 };
const frame = { widthPx: 1400, heightPx: 1050 };
const focalPx = usualFocalShare * Math.hypot(frame.widthPx, frame.heightPx);
const shares = { rustedPercent: 4, edgePercent: 15 };
const finishes = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"] as const;
const coupons = finishes.map((finish) => (finish === "bare steel" ? cleanCoupon(finish) : rustyCoupon(finish, shares)));
const lights: CardScene["light"][] = [
  { alongX: 0.1, shadow: 0.3 },
  { alongX: 0.4, alongY: -0.3, tint: [1, 0.92, 0.82], shadow: 0.9 },
  { alongX: -0.3, alongY: 0.3, tint: [0.9, 0.96, 1], exposure: 0.5, shadow: 0.6 },
];

const pick = <T>(random: SeededRandom, from: readonly T[]): T => from[random.below(from.length)]!;
const between = (random: SeededRandom, low: number, high: number) => low + random.next() * (high - low);

/** No saw keeps to the plan: what counts is the size that the coupon has. */
const cutSize = (random: SeededRandom) => ({
  lengthMm: sizeMm.lengthMm + between(random, -0.3, 0.3),
  widthMm: sizeMm.widthMm + between(random, -0.3, 0.3),
});

/** A photograph that a careful person takes, any way round. */
function goodScene(random: SeededRandom, seed: number): CardScene {
  const coupon = pick(random, coupons);
  const light = pick(random, lights);
  const isBright = coupon === coupons[3];
  return {
    ...frame,
    seed,
    card: "medium",
    printScale: between(random, 0.97, 1.03),
    tiltDeg: between(random, 0, 30),
    tiltTowardsDeg: between(random, 0, 360),
    turnDeg: between(random, -25, 25),
    fills: 0.5,
    coupon: { ...coupon, piece: { ...coupon.piece, sizeMm: cutSize(random) }, turnDeg: between(random, -5, 5) },
    // Bright steel beside a shadow of its own brightness shows no edge: it wants soft light.
    light: { ...light, ...(isBright ? { shadow: 0.15 } : {}) },
    blurPx: between(random, 0.5, 1.1),
    noise: between(random, 0.5, 3),
  };
}

async function throughJpeg(photo: RgbImage, quality: number): Promise<RgbImage> {
  const raw = { width: photo.widthPx, height: photo.heightPx, channels: 3 } as const;
  const bytes = await sharp(photo.rgb, { raw }).jpeg({ quality }).toBuffer();
  const { data } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
  return { widthPx: photo.widthPx, heightPx: photo.heightPx, rgb: new Uint8Array(data) };
}

async function sizes(random: SeededRandom): Promise<void> {
  const rows: { lengthOff: number; widthOff: number; cornerMm: number; trusted: boolean; what: string }[] = [];
  let [noCard, noCoupon] = [0, 0];
  for (let at = 0; at < Number(options.scenes); at++) {
    const scene = { ...goodScene(random, at), tiltDeg: between(random, 0, 35) };
    const rendered = renderCard(scene);
    const photo = await throughJpeg(rendered, 50 + random.below(46));
    const card = findCard(photo, scene.printScale!);
    if (!card) {
      noCard++;
      continue;
    }
    const coupon = findCoupon(photo, card, { ...frame, focalPx }, { ...sizeMm, thicknessMm: 3 });
    if (!coupon) {
      noCoupon++;
      continue;
    }
    const cut = scene.coupon!.piece.sizeMm;
    const pxPerMm = (scene.fills! * frame.widthPx) / 134;
    rows.push({
      lengthOff: 100 * (coupon.sizeMm.lengthMm / cut.lengthMm - 1),
      widthOff: 100 * (coupon.sizeMm.widthMm / cut.widthMm - 1),
      cornerMm:
        Math.max(
          ...coupon.cornersPx.map(([x, y], corner) => {
            const [trueX, trueY] = rendered.couponCornersPx![corner]!;
            return Math.hypot(x - trueX, y - trueY);
          }),
        ) / pxPerMm,
      trusted: isTrusted(coupon, sizeMm),
      what: `${finishes[coupons.findIndex(({ colours }) => colours === scene.coupon!.colours)]}, light ${1 + lights.findIndex((light) => light?.alongX === scene.light?.alongX)}`,
    });
  }
  const offs = rows
    .filter(({ trusted }) => trusted)
    .flatMap(({ lengthOff, widthOff }) => [Math.abs(lengthOff), Math.abs(widthOff)]);
  const corners = rows.filter(({ trusted }) => trusted).map(({ cornerMm }) => cornerMm);
  console.log(
    `${options.scenes} photographs: card not found in ${noCard}, no coupon in ${noCoupon}, not trusted ${rows.filter(({ trusted }) => !trusted).length}.\n`,
  );
  console.log("| of those trusted | median | 95 % | most |\n|---|---|---|---|");
  console.log(`| size off, % | ${quantiles(offs)} |`);
  console.log(`| worst corner off, mm | ${quantiles(corners)} |`);
  const scenes = Number(options.scenes);
  const offOf = ({ lengthOff, widthOff }: (typeof rows)[number]) => Math.max(Math.abs(lengthOff), Math.abs(widthOff));
  const taken = rows.filter(({ trusted }) => trusted);
  const near = taken.filter((row) => offOf(row) <= 1).length;
  const list = (some: typeof rows) =>
    some.map((row) => `${row.what} (${offOf(row).toFixed(1)} %)`).join(", ") || "none";
  console.log(`\nTaken, both sides within 1 %: ${shareText(near, scenes)}`);
  console.log(
    `Taken, a side off by more: ${shareText(taken.length - near, scenes)}: ${list(taken.filter((row) => offOf(row) > 1))}`,
  );
  console.log(`Refused: ${list(rows.filter(({ trusted }) => !trusted))}`);
}

function shareText(successes: number, trials: number): string {
  const { lower, upper } = wilsonInterval({ successes, trials, confidence: 0.95 });
  const percent = (share: number) => (100 * share).toFixed(1);
  return `${successes} of ${trials} (${percent(successes / trials)} %, 95 % interval ${percent(lower)} to ${percent(upper)} %)`;
}

function quantiles(values: number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(2);
  return [at(0.5), at(0.95), at(1)].join(" | ");
}

/** Each fault in degrees that spoil a reading; px are of a picture with about 5 px per mm. */
const faults: Record<string, (scene: CardScene, random: SeededRandom) => CardScene> = {
  "out of focus": (scene, random) => ({ ...scene, blurPx: between(random, 2.4, 5) }),
  moved: (scene, random) => ({ ...scene, motionPx: between(random, 7, 16), turnDeg: between(random, -8, 8) }),
  "glare on the face": (scene, random) => ({ ...scene, light: { ...scene.light, glare: between(random, 1.2, 3) } }),
  "too dark": (scene, random) => ({ ...scene, light: { ...scene.light, exposure: between(random, 0.03, 0.09) } }),
  "white burnt out": (scene, random) => ({ ...scene, light: { ...scene.light, exposure: between(random, 1.5, 2.5) } }),
  "light very uneven": (scene, random) => ({
    ...scene,
    light: { ...scene.light, alongX: between(random, 1.1, 1.5), alongY: 0 },
  }),
  "hard shadow on the card": (scene, random) => ({
    ...scene,
    light: { ...scene.light, hardShadow: between(random, 0.12, 0.3) },
  }),
  "coloured light": (scene, random) => ({
    ...scene,
    light: { ...scene.light, tint: [1, between(random, 0.6, 0.7), between(random, 0.25, 0.4)] },
  }),
  "too far away": (scene, random) => ({ ...scene, fills: between(random, 0.25, 0.33), tiltDeg: 5 }),
  "from the side": (scene, random) => ({ ...scene, tiltDeg: between(random, 42, 52), fills: 0.45 }),
  "two markers hidden": (scene) => ({ ...scene, hidden: [1, 2] }),
};

async function gate(random: SeededRandom): Promise<void> {
  const ofEach = Number(options["of-each"]);
  const judged = async (scene: CardScene) => {
    const photo = await throughJpeg(renderCard(scene), 60 + random.below(36));
    const request = { cornersPx: null, sizeMm, edgeBandMm: 5, thicknessMm: 3 };
    const seen = await seeCoupon({ photo: { ...photo, focalPx, shrink: 1 }, printScale: scene.printScale! }, request);
    if (!("refused" in seen)) return "passed";
    return seen.why === "gate"
      ? seen.checks
          .filter(({ passes }) => !passes)
          .map(({ what }) => what)
          .join(" + ")
      : seen.why;
  };
  console.log("\n| photographs | n | passed | refused, and for what |\n|---|---|---|---|");
  const row = async (name: string, n: number, change: (scene: CardScene) => CardScene) => {
    const counts = new Map<string, number>();
    for (let at = 0; at < n; at++) {
      const why = await judged(change(goodScene(random, 1000 + at)));
      counts.set(why, (counts.get(why) ?? 0) + 1);
    }
    const refused = [...counts].filter(([why]) => why !== "passed").sort((a, b) => b[1] - a[1]);
    console.log(
      `| ${name} | ${n} | ${counts.get("passed") ?? 0} | ${refused.map(([why, count]) => `${why} ${count}`).join(", ")} |`,
    );
    return counts.get("passed") ?? 0;
  };
  const goodPassed = await row("good", 5 * ofEach, (scene) => scene);
  let faultyPassed = 0;
  for (const [name, fault] of Object.entries(faults))
    faultyPassed += await row(name, ofEach, (scene) => fault(scene, random));
  console.log(`\nRefused though good: ${shareText(5 * ofEach - goodPassed, 5 * ofEach)}`);
  console.log(`Passed though faulty: ${shareText(faultyPassed, Object.keys(faults).length * ofEach)}`);
}

const random = seededRandom(Number(options.seed));
await sizes(random);
await gate(random);
