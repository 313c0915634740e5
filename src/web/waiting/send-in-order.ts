/**
 * Sends what waits, one after another, in the order in which it was written down. What the shop refuses is marked and
 * passed by; where nobody answers, the rest waits. An answer that got lost costs one repeat, which the shop drops.
 */
import type { Problem } from "../../api/shop.ts";
import { Refused } from "../shop/ask.ts";
import type { WaitingItem } from "./waiting-item.ts";

export type Sender = {
  items: () => Promise<WaitingItem[]>;
  deliver: (item: WaitingItem) => Promise<void>;
  stored: (item: WaitingItem) => Promise<void>;
  refused: (item: WaitingItem, problem: Problem) => Promise<void>;
};

/** "away": something is left that can be sent later. */
export async function sendInOrder({ items, deliver, stored, refused }: Sender): Promise<"all sent" | "away"> {
  for (;;) {
    const next = (await items()).find((item) => item.refused === null);
    if (!next) return "all sent";
    try {
      await deliver(next);
    } catch (error) {
      if (!(error instanceof Refused) || mayPass(error.problem)) return "away";
      await refused(next, error.problem);
      continue;
    }
    await stored(next);
  }
}

/** Not paired any more (401), too slow (408), too many at once (429), shutting down (503): nothing is wrong with the item. */
const passing = [401, 408, 429, 503];
const mayPass = ({ status }: Problem): boolean => passing.includes(status);
