/** How long to wait before the shop is called again: soon at first, then ever more seldom, and never all devices at once. */

const firstMs = 1000;
/** Somebody who stands before it with gloves on waits no longer than that. */
const longestMs = 15_000;

/** `failures`: how often in a row nobody answered, from 1. `chance`: from 0 to 1, by lot. */
export function reconnectDelayMs(failures: number, chance: number): number {
  const wholeMs = Math.min(longestMs, firstMs * 2 ** (failures - 1));
  return wholeMs * (0.5 + chance / 2);
}
