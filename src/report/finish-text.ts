/** A finish colour in words: how dark, which tint, how even, and what differs where. Its names are plain ranges of our own. */
import type { ColourReading } from "../core/trial/trial-record.ts";
import type { Lab } from "../core/vision/colour-lab.ts";
import type { Blotch } from "../core/vision/finish-colour.ts";

type Size = { lengthMm: number; widthMm: number };

/** "dark grey, L* 31 ± 2, one lighter patch at the top left". */
export function finishText(
  { lab, lightnessSd, blotches }: Pick<ColourReading, "lab" | "lightnessSd" | "blotches">,
  size: Size,
): string {
  const numbers = `L* ${lab.lStar.toFixed(0)} ± ${lightnessSd.toFixed(lightnessSd < 1 ? 1 : 0)}`;
  return `${colourName(lab)}, ${numbers}, ${blotchText(blotches, size)}`;
}

/** Upper ends in L*: black oxide and oiled phosphate lie below 30, dry phosphate below 50, ground steel above 60. */
const lightnessNames = [
  [18, "black"],
  [30, "charcoal"],
  [45, "dark grey"],
  [62, "mid grey"],
  [78, "light grey"],
  [101, "nearly white"],
] as const;

const tints = [
  [20, "reddish"],
  [75, "brownish"],
  [110, "yellowish"],
  [190, "greenish"],
  [290, "bluish"],
  [340, "purplish"],
  [361, "reddish"],
] as const;
/** Chroma below this looks grey beside a grey. */
const tintChroma = 4;

export function colourName({ lStar, aStar, bStar }: Lab): string {
  const grey = lightnessNames.find(([upTo]) => lStar < upTo)?.[1] ?? "nearly white";
  const chroma = Math.hypot(aStar, bStar);
  if (chroma < tintChroma) return grey;
  const hueDeg = ((Math.atan2(bStar, aStar) * 180) / Math.PI + 360) % 360;
  const tint = tints.find(([upTo]) => hueDeg < upTo)![1];
  return chroma > 4 * tintChroma ? `strongly ${tint} ${grey}` : `${tint} ${grey}`;
}

function blotchText(blotches: readonly Blotch[], size: Size): string {
  const [only, ...more] = blotches;
  if (!only) return "even";
  if (more.length > 0)
    return `${blotches.length} patches that differ, the largest ${sideOf(only)} ${placeOf(only, size)}`;
  return `one ${sideOf(only)} patch ${placeOf(only, size)}`;
}

const sideOf = ({ lighter }: Blotch) => (lighter ? "lighter" : "darker");

/** In thirds, as the number reads. */
export function placeOf({ xMm, yMm }: Pick<Blotch, "xMm" | "yMm">, { lengthMm, widthMm }: Size): string {
  const across = ["left", "", "right"][Math.min(2, Math.floor((3 * xMm) / lengthMm))]!;
  const down = ["top", "", "bottom"][Math.min(2, Math.floor((3 * yMm) / widthMm))]!;
  if (across === "" && down === "") return "in the middle";
  return `at the ${[down, across].filter((word) => word !== "").join(" ")}`;
}
