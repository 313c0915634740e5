/**
 * What waits on the phone in `yard-rounds.ts`: 30 things of every kind that its queue holds, in the order in which they were
 * written down, and what the shop must make of each.
 */
import { createHash, randomBytes, randomUUID } from "node:crypto";
import sharp from "sharp";
import { platesOfTest } from "../src/core/rating/rust-plate.ts";
import { cleanCoupon, renderCard, rustyCoupon } from "../tests/rendered-card.ts";
import { renderTape } from "../tests/rendered-tape.ts";

export const couponSize = { lengthMm: 100, widthMm: 60, thicknessMm: 3 };
export const questions = [
  { response: "time to first rust", family: "control", margin: 1.5, atDay: null },
  {
    ...{ response: "value", name: "film", kind: "continuous", better: "higher", unit: "µm", ratio: false },
    ...{ scale: null, family: "control", margin: 3, atDay: null },
  },
];

/** Pictures in which something is read; rendering them takes seconds, so they are made once for all rounds. */
export type ReadPictures = Awaited<ReturnType<typeof renderPictures>>;

export async function renderPictures() {
  const card = { seed: 5, card: "medium", widthPx: 1400, fills: 0.6, tiltDeg: 4 } as const;
  const tape = renderTape({
    ...{ seed: 3, primer: "grey", substrate: "phosphate", tiltDeg: 12, uneven: 0.3, widthPx: 900 },
    pattern: { form: "cross-cut", cuts: 6, spacingMm: 2 },
    loss: { percent: 24 },
  });
  const rusty = rustyCoupon("phosphate dry", { rustedPercent: 6, edgePercent: 12 });
  return {
    colour: await asJpeg(renderCard({ ...card, coupon: cleanCoupon("phosphate dry") })),
    rusty: await asJpeg(renderCard({ ...card, coupon: rusty })),
    before: { file: await asJpeg(tape.before.photo), cornersPx: tape.before.cornersPx },
    after: { file: await asJpeg(tape.after.photo), cornersPx: tape.after.cornersPx },
  };
}

const asJpeg = ({ rgb, widthPx, heightPx }: { rgb: Uint8Array; widthPx: number; heightPx: number }) =>
  sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 92 })
    .toBuffer();

export const hashOf = (file: Buffer): string => createHash("sha256").update(file).digest("hex");

/** Noise packs badly: about three pieces. */
async function noisyPhoto(): Promise<Buffer> {
  const side = 1100;
  return sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } })
    .jpeg({ quality: 98 })
    .toBuffer();
}

/** `item`: as the page keeps it, without what every item has; `becomes`: the id of the observation that must come of it. */
export type Planned = { item: Record<string, unknown> & { kind: string }; file: Buffer | null; becomes: string | null };

/** A look with its measurement that is in the shop before the network goes; the brush corrects it out of reach. */
export type LookBefore = { look: string; measurement: string; date: string };

export const site = "shed";
export const readingsAtSite = 48;

export async function plannedItems(trial: string, date: string, seen: ReadPictures, before: LookBefore) {
  const noise = () => noisyPhoto();
  const when = { date };
  const by = "Ines";
  const observation = (body: object): Planned => {
    const id = randomUUID();
    return {
      item: { id, kind: "observation", trial, observation: { id, by, corrects: null, body } },
      file: null,
      becomes: id,
    };
  };
  const look = (coupon: string, rustedPercent: number) =>
    observation({
      ...{ kind: "look", coupon, face: "front", when, rustedPercent, edgePercent: null },
      ...{ how: "eye", blind: true, measurement: null },
    });
  const photograph = async (coupon: string): Promise<Planned> => {
    const item = { id: randomUUID(), kind: "photo", inspection: `${trial} ${coupon} front` };
    return { item, file: await noise(), becomes: null };
  };
  const named = (file: Buffer, words: string, more: object = {}): Planned => {
    const hash = hashOf(file);
    const item = { id: randomUUID(), kind: "photo", inspection: `photograph ${hash}`, named: { words, hash, ...more } };
    return { item, file, becomes: null };
  };
  const reading = (of: object, corrects: object | null): Planned => {
    const id = randomUUID();
    return { item: { id, kind: "reading", trial, by, corrects, reading: of }, file: null, becomes: id };
  };
  const message = (path: string, body: object, id: string = randomUUID()): Planned => ({
    item: { id, kind: "message", path, body, words: path },
    ...{ file: null, becomes: null },
  });

  const tapeBody = {
    ...{ kind: "tape test", coupon: "1", when, tapeClass: "3B", blind: true, note: "" },
    details: {
      ...{ cut: { form: "cross-cut", spacingMm: 2, cuts: 6 }, tape: { name: "", qualified: false } },
      ...{ parted: "not seen", eyeClass: "3B", photo: null, counts: "eye", painted: null },
    },
  };
  const tapeTest = observation(tapeBody);
  const tapeRequest = {
    before: { photo: hashOf(seen.before.file), cornersPx: seen.before.cornersPx },
    after: { photo: hashOf(seen.after.file), cornersPx: seen.after.cornersPx },
    pattern: { form: "cross-cut", cuts: 6, spacingMm: 2 },
  };
  const colourRequest = {
    ...{ photo: hashOf(seen.colour), cornersPx: null, edgeBandMm: 5, thicknessMm: couponSize.thicknessMm },
    sizeMm: { lengthMm: couponSize.lengthMm, widthMm: couponSize.widthMm },
  };
  const corrected = { id: randomUUID(), look: randomUUID() };
  const wiped = {
    paint: "not rust",
    widthMm: 10,
    pointsMm: [
      [10, 30],
      [90, 30],
    ],
  };
  const correction: Planned = {
    item: {
      ...{ id: corrected.id, kind: "correction", coupon: "2", measurement: before.measurement, inspection: null },
      correction: { id: corrected.id, by, why: "that is clay", strokes: [wiped] },
      look: {
        ...{ id: corrected.look, trial, corrects: before.look },
        body: { kind: "look", coupon: "2", face: "front", when: { date: before.date }, blind: true },
      },
    },
    ...{ file: null, becomes: corrected.look },
  };
  const eyeTest = {
    id: randomUUID(),
    by,
    way: "percent",
    seed: 7,
    read: Array.from({ length: platesOfTest }, () => 1),
  };
  const readings = Array.from({ length: readingsAtSite }, (_, at) => ({
    ...{
      at: new Date(Date.parse(`${date}T00:00:00Z`) + at * 600_000).toISOString(),
      tempC: 8,
      rhPercent: 80 + at / 10,
    },
  }));
  const wear = { kind: "wear test", coupon: "4", place: "face", when, leftStrokes: 40, rightStrokes: 60 };

  const items: Planned[] = [
    look("1", 0.1),
    await photograph("1"),
    look("2", 0.2),
    named(seen.before.file, "Photograph before the pull, coupon 1"),
    named(seen.after.file, "Photograph after the pull, coupon 1"),
    tapeTest,
    reading(
      { of: "tape test", request: tapeRequest, body: tapeBody, counts: "photo", parted: "not seen" },
      { id: tapeTest.becomes, why: "Read from the photographs once the shop was reached" },
    ),
    await photograph("2"),
    named(seen.colour, "Photograph of a finish colour, coupon 3"),
    reading(
      {
        ...{ of: "finish colour", request: colourRequest },
        body: { kind: "finish colour", coupon: "3", when, state: "dry and wiped", note: "" },
      },
      null,
    ),
    observation({
      ...{ kind: "weighing", coupon: "3", with: [], state: "coated", massG: 61.2, balanceMg: 10, when },
      ...{ blind: true, note: "" },
    }),
    observation({ ...wear, blind: true, note: "" }),
    observation({ kind: "value", coupon: "1", name: "film", value: 42, when, how: "bench", blind: true, note: "" }),
    await photograph("3"),
    message("/api/eye-tests", eyeTest, eyeTest.id),
    message(`/api/sites/${site}/readings`, readings),
    // A reading of the tank: when, how warm.
    observation({
      ...{ kind: "application", step: "oil", coupons: ["1", "2", "3", "4"], startedAt: null, endedAt: null },
      ...{ tempC: 22.5, note: "second dip" },
    }),
    observation({
      ...{ kind: "deviation", coupons: ["4"], step: null, what: "hung a minute too long", paperworkOnly: false },
    }),
    correction,
    await photograph("4"),
    named(await noise(), "Photograph of many, coupon 1 (1.jpg)", { isOfMany: true }),
    look("3", 0.3),
    look("4", 0.4),
    observation({ kind: "circumstance", coupon: "2", name: "where it hung", value: "by the door" }),
    // A new trial is the owner's to make: from this phone, a helper's, it would be refused, and said to be.
    observation({ ...wear, place: "edge", blind: true, note: "" }),
    await photograph("1"),
    look("1", 0.5),
    look("2", 0.6),
    look("3", 0.7),
    look("4", 0.8),
  ];
  return { items, corrected: corrected.id, eyeTest: eyeTest.id };
}

/** Four coupons; each gets both, since a tank reading is of a step that all have. */
export function draft() {
  const treatments = (["plain", "twice"] as const).map((name) => ({
    name,
    role: name === "plain" ? "control" : "finish",
    coupons: 2,
    route: [{ name: "oil", treated: "alone" }],
  }));
  return {
    ...{ question: "Does a second dip hold off rust longer?", questions, treatments, blocks: 1, couponSize },
    ...{ edgeBandMm: 5, rustThresholdPercent: 0.01, lookDays: [1, 7], rackColumns: 4, sparesOfEach: 0, seed: 7 },
  };
}
