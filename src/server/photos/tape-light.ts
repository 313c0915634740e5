/** Two photographs of one cut as in one light: where the measuring card lies in both, its paper tells how their lights differ. */
import { balanced, cardLight } from "../../core/vision/card-light.ts";
import type { FoundCard } from "../../core/vision/find-card.ts";
import { inverted } from "../../core/vision/homography.ts";
import type { TapePicture } from "../../core/vision/tape-laid-over.ts";
import { windowCorners } from "./photo-sight.ts";

/** `cards`: as found in the pictures before and after. With one missing both stay as they are: half a balance would part them. */
export function inOneLight(
  { before, after }: { before: TapePicture; after: TapePicture },
  cards: { before: FoundCard | null; after: FoundCard | null },
): { before: TapePicture; after: TapePicture } {
  if (!cards.before || !cards.after) return { before, after };
  return { before: inCardLight(before, cards.before), after: inCardLight(after, cards.after) };
}

function inCardLight({ photo, cornersPx }: TapePicture, card: FoundCard): TapePicture {
  const toCard = inverted(card.toPicture);
  // As for the gate: the coupon lies somewhere in the window.
  const light = cardLight(photo, card, windowCorners(card));
  return { photo: balanced(photo, light, toCard), cornersPx };
}
