/**
 * Whether a photograph is good enough to be rated: each thing that spoils a reading, as measured, beside its limit and what to do about it.
 *
 * The smallest spot that a grade hangs on is some 0.7 mm wide (0.01 % of a face of 100 by 50 mm less its band); limits of focus,
 * movement and resolution come from there. Light may be uneven and coloured as far as the card's paper lets it be taken out again.
 *
 * Units    px per mm, mm, degrees, % of the face or of the paper, sRGB level, C*ab
 * Source   our own limits, tried on rendered photographs
 * Status   common practice
 */
import type { FaceRectangle } from "./assessed-face.ts";
import type { CardLight } from "./card-light.ts";
import type { RgbImage } from "./raster.ts";

export const gateLimits = {
  resolution: { least: 4, unit: "px per mm" },
  tilt: { most: 36, unit: "°" },
  focus: { most: 0.65, unit: "mm" },
  /** Without a card only the coupon's own edge can be read, and a sheared edge is never as sharp as print. */
  "focus of the coupon's edge": { most: 1.4, unit: "mm" },
  movement: { most: 0.5, unit: "mm" },
  glare: { most: 2, unit: "% of the face" },
  darkness: { least: 90, unit: "of 255" },
  overexposure: { most: 15, unit: "% of the paper" },
  "uneven light": { most: 2, unit: "times" },
  "hard shadow": { most: 4, unit: "% of the paper" },
  "colour cast": { most: 22, unit: "C*ab" },
  "flat card": { most: 0.4, unit: "mm" },
  "card in sight": { least: 3, unit: "of 4 markers" },
} as const;
export type GateName = keyof typeof gateLimits;
export const gateNames = Object.keys(gateLimits) as GateName[];

export type GateCheck = {
  what: GateName;
  measured: number;
  limit: number;
  /** Whether the measured value may not be below or not above the limit. */
  bound: "least" | "most";
  unit: string;
  passes: boolean;
  /** What is wrong, as a sentence, and what to do about it. */
  says: string;
  advice: string;
};

const advice: Record<GateName, string> = {
  resolution: "Go nearer, so that card or coupon fill the picture; do not zoom.",
  tilt: "Hold it more above, its back level with the card.",
  focus: "Tap the coupon on the screen to focus, and keep 20 cm away or more.",
  "focus of the coupon's edge": "Tap the coupon on the screen to focus, and keep 20 cm away or more.",
  movement: "Rest your elbows or the phone on something, or give it more light.",
  glare: "Turn the coupon or the lamp until nothing mirrors in it; a white sheet between lamp and coupon helps.",
  darkness: "Give it more light: a window without sun, or two lamps.",
  overexposure: "Tap the white of the card on the screen so that it is exposed for it, or take light away.",
  "uneven light": "Move the lamp farther away, or add one on the other side.",
  "hard shadow": "Step aside: your shadow or the phone's lies on the card.",
  "colour cast": "Use daylight or a white lamp, and switch coloured or mixed lamps off.",
  "flat card": "Press the card flat, or glue it on a board.",
  "card in sight": "Show at least three of the card's corners, with nothing on them.",
};

/** Places after the point to which each is said. */
const saidDigits: Record<GateName, number> = {
  resolution: 1,
  tilt: 0,
  focus: 2,
  "focus of the coupon's edge": 1,
  movement: 2,
  glare: 1,
  darkness: 0,
  overexposure: 0,
  "uneven light": 1,
  "hard shadow": 0,
  "colour cast": 0,
  "flat card": 1,
  "card in sight": 0,
};

/** The measured value in the digits in which it is said; one that fails is rounded away from its limit, where a hair beyond would read as on it. */
export function gateValueText({ what, measured, bound, passes }: Omit<GateCheck, "says">): string {
  const digits = saidDigits[what];
  const round = passes ? Math.round : bound === "least" ? Math.floor : Math.ceil;
  // What is a whole number but for the last bit of the product is one.
  return (round(Number((measured * 10 ** digits).toFixed(6))) / 10 ** digits).toFixed(digits);
}

const says: Record<GateName, (measured: string) => string> = {
  resolution: (pxPerMm) => `The coupon is too small in the picture: ${pxPerMm} px per mm.`,
  tilt: (degrees) =>
    `The camera looks at the coupon from the side: ${degrees}° from straight above, at most ${gateLimits.tilt.most}°.`,
  focus: (mm) => `It is out of focus: printed edges are drawn out over ${mm} mm.`,
  "focus of the coupon's edge": (mm) => `It is out of focus: the coupon's edges are drawn out over ${mm} mm.`,
  movement: (mm) => `The phone moved: edges are drawn out by ${mm} mm one way.`,
  glare: (percent) => `A lamp mirrors in ${percent} % of the face.`,
  darkness: (level) => `It is too dark: the card's white reads ${level} of 255.`,
  overexposure: (percent) => `It is too bright: ${percent} % of the card's white is burnt out.`,
  "uneven light": (times) => `The light is uneven: one side is ${times} times as bright as the other.`,
  "hard shadow": (percent) => `A shadow lies on ${percent} % of the card.`,
  "colour cast": (chroma) => `The light is coloured: the card's white is off by ${chroma} C*ab.`,
  "flat card": (mm) => `The card is not flat: its markers are ${mm} mm out of place.`,
  "card in sight": (markers) => `Only ${markers} of the card's 4 markers can be read.`,
};

export type GateSight = {
  pxPerMm: number;
  tiltDeg: number;
  /** 10 to 90 % width of edges across x and across y, mm; null where it could not be measured. */
  edgeWidthMm: { acrossX: number | null; acrossY: number | null };
  glarePercent: number;
  /** What only a card can tell; null without one. */
  card: { light: CardLight; unevenMm: number; markers: number } | null;
};

/** The checks that this photograph allows, in the order in which they are to be put right. */
export function photoGate(sight: GateSight): GateCheck[] {
  const { pxPerMm, tiltDeg, edgeWidthMm, glarePercent, card } = sight;
  const widths = [edgeWidthMm.acrossX, edgeWidthMm.acrossY].filter((width) => width !== null);
  const sharpest = widths.length === 0 ? null : Math.min(...widths);
  // Blur adds by squares: what one direction has more than the other is movement.
  const movement = widths.length < 2 ? null : Math.sqrt(Math.max(...widths) ** 2 - Math.min(...widths) ** 2);
  const measured: [GateName, number | null][] = [
    ["card in sight", card?.markers ?? null],
    ["resolution", pxPerMm],
    ["tilt", tiltDeg],
    [card ? "focus" : "focus of the coupon's edge", sharpest],
    ["movement", card ? movement : null],
    ["darkness", card?.light.whiteLevel ?? null],
    ["overexposure", card?.light.clippedPaperPercent ?? null],
    ["glare", glarePercent],
    ["hard shadow", card?.light.shadowPercent ?? null],
    ["uneven light", card?.light.unevenness ?? null],
    ["colour cast", card?.light.castChroma ?? null],
    ["flat card", card?.unevenMm ?? null],
  ];
  return measured.flatMap(([what, value]) => (value === null ? [] : [checked(what, value)]));
}

function checked(what: GateName, measured: number): GateCheck {
  const of = gateLimits[what];
  const [bound, limit] = "least" in of ? (["least", of.least] as const) : (["most", of.most] as const);
  const passes = bound === "least" ? measured >= limit : measured <= limit;
  const check = { what, measured, limit, bound, unit: of.unit, passes, advice: advice[what] };
  return { ...check, says: says[what](gateValueText(check)) };
}

/** Why a photograph is not rated, and what to do first; null when every check passes. */
export function gateSentence(checks: readonly GateCheck[]): string | null {
  const failed = checks.filter(({ passes }) => !passes);
  const first = failed[0];
  return first ? `${failed.map((check) => check.says).join(" ")} ${first.advice}` : null;
}

/** Brighter than this in all channels, steel mirrors a lamp: the paper of a balanced picture lies at 235. */
const mirroredByte = 246;

/** How much of the face mirrors a lamp, %. */
export function glarePercentOf({ widthPx, rgb }: RgbImage, face: FaceRectangle): number {
  let mirrored = 0;
  for (let row = face.top; row < face.bottom; row++)
    for (let byte = (row * widthPx + face.left) * 3, end = (row * widthPx + face.right) * 3; byte < end; byte += 3)
      if (rgb[byte]! >= mirroredByte && rgb[byte + 1]! >= mirroredByte && rgb[byte + 2]! >= mirroredByte) mirrored++;
  return (100 * mirrored) / ((face.right - face.left) * (face.bottom - face.top));
}
