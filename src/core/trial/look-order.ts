/** The order in which coupons are looked at: shuffled, so that neighbours on the rack are not judged side by side. */
import { seededRandom } from "../numeric/random.ts";

/** The same trial and look day give the same order on every device. `look` is a planned day or a date. */
export function shuffledForLook(coupons: readonly string[], of: { trial: string; look: string | number }): string[] {
  const inOwnOrder = [...coupons].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return seededRandom(textSeed(`${of.trial} ${of.look}`)).shuffle(inOwnOrder);
}

/** FNV-1a, 32 bits: spreads ids that differ in one letter. */
function textSeed(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  return hash >>> 0;
}
