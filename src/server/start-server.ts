/** Opens a shop and serves it on this machine, until it is closed. */
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import { openShop } from "../store/open-shop.ts";
import { eventHub } from "./event-hub.ts";
import { jobQueue } from "./job-queue.ts";
import { type Measurer, measurePool, threads } from "./measure-pool.ts";
import { shopApp } from "./shop-app.ts";

export type RunningServer = { url: string; close: () => Promise<void> };

export type ServerOptions = {
  shopDir: string;
  /** 0: any free one. */
  port: number;
  /** Opens the demonstration shop beside this one; without it none is offered. */
  openDemo?: () => Promise<{ url: string }>;
  /** Where photographs are measured; threads of this process unless told otherwise. */
  measurer?: Measurer;
};

/** Somebody else listens there. */
export class PortTaken extends Error {}

/** Beside the built command line; sources run from one folder higher. */
const webDir = fileURLToPath(
  new URL(import.meta.url.endsWith(".ts") ? "../../dist/web" : "../../web", import.meta.url),
);

export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { shopDir, port, openDemo = null, measurer = measurePool() } = options;
  const store = await openShop(shopDir);
  const events = eventHub();
  const jobs = jobQueue({ atOnce: threads, changed: ({ id }) => events.send({ changed: "job", id }) });
  const app = await shopApp({ store, events, jobs, measurer, now: () => new Date(), openDemo }, webDir);
  // What is open ends first: an event stream or a long picture would otherwise hold the server up.
  app.addHook("preClose", async () => {
    events.close();
    await jobs.close();
  });
  app.addHook("onClose", async () => {
    await measurer.close();
    await store.close();
  });
  try {
    // This machine alone: nothing here asks who is there.
    await app.listen({ host: "127.0.0.1", port });
  } catch (error) {
    await app.close();
    if (error instanceof Error && "code" in error && error.code === "EADDRINUSE")
      throw new PortTaken(
        `Port ${port} is taken by another program. Name another with --port, or take any free one: --port 0.`,
      );
    throw error;
  }
  const { port: found } = app.server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${found}/`, close: () => app.close() };
}
