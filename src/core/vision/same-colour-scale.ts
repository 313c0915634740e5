/** A colour read in one photograph, on the tones of another with the same card in it. */
import { InputError } from "../input-error.ts";
import type { Lab } from "./colour-lab.ts";

/**
 * The colour as the other photograph would have shown it.
 *
 * Formula  the patches' differences in L*, a*, b* between both photographs, drawn straight between neighbouring patches over L*, level beyond them
 * Units    CIELAB
 * Source   our own
 * Status   common practice
 * Holds    for photographs of the same printed card
 * Refuses  cards with unequal numbers of patches, or none
 */
export function onScaleOf({ lab, patches, other }: { lab: Lab; patches: readonly Lab[]; other: readonly Lab[] }): Lab {
  if (patches.length === 0 || patches.length !== other.length)
    throw new InputError(
      "patches",
      patches.length,
      `as many as in the other photograph, ${other.length}, and at least 1`,
    );
  const above = patches.findIndex(({ lStar }) => lStar >= lab.lStar);
  const upper = above === -1 ? patches.length - 1 : above;
  const lower = above === -1 ? upper : Math.max(0, upper - 1);
  const [from, to] = [patches[lower]!, patches[upper]!];
  const share = from.lStar === to.lStar ? 0 : (Math.max(lab.lStar, from.lStar) - from.lStar) / (to.lStar - from.lStar);
  const shifted = (part: keyof Lab) => {
    const [a, b] = [other[lower]![part] - from[part], other[upper]![part] - to[part]];
    return lab[part] + a + share * (b - a);
  };
  return { lStar: shifted("lStar"), aStar: shifted("aStar"), bStar: shifted("bStar") };
}
