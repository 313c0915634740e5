/** What the routes work with: the open shop, its pages' events, its jobs, and the clock as a value. */
import type { ShopStore } from "../store/open-shop.ts";
import type { EventHub } from "./event-hub.ts";
import type { JobQueue } from "./job-queue.ts";
import type { Measurer } from "./measure-pool.ts";
import type { Sharing } from "./sharing/sharing.ts";

export type ServedShop = {
  store: ShopStore;
  events: EventHub;
  jobs: JobQueue;
  measurer: Measurer;
  now: () => Date;
  /** Whether and how the local network gets in. */
  sharing: Sharing;
  /** Opens the demonstration shop beside this one and says where. */
  /** null: this server offers none (it may be the demonstration itself). */
  openDemo: (() => Promise<{ url: string }>) | null;
};
