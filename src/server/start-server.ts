/** Opens a shop and serves it on this machine, until it is closed. */
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import type { SharingChoice, SharingWay } from "../api/sharing.ts";
import { openShop } from "../store/open-shop.ts";
import { eventHub } from "./event-hub.ts";
import { jobQueue } from "./job-queue.ts";
import { measureApart } from "./measure-apart.ts";
import { type Measurer, threads } from "./measure-pool.ts";
import { type Sharing, type SharingPlace, sharingOf } from "./sharing/sharing.ts";
import { shopApp } from "./shop-app.ts";

export type RunningServer = { url: string; sharing: Sharing; close: () => Promise<void> };

/** How the local network gets in. Without a word of it, as it was last chosen on the page; on a new shop, not at all. */
export type ShareOptions = Partial<SharingPlace> & { start?: SharingWay | "not" };

export type ServerOptions = {
  shopDir: string;
  /** 0: any free one. */
  port: number;
  /** Opens the demonstration shop beside this one; without it none is offered. */
  openDemo?: () => Promise<{ url: string }>;
  /** Where photographs are measured; a process of its own unless told otherwise. */
  measurer?: Measurer;
  share?: ShareOptions;
};

/** Somebody else listens there. */
export class PortTaken extends Error {}

/** Beside the built command line; sources run from one folder higher. */
const webDir = fileURLToPath(
  new URL(import.meta.url.endsWith(".ts") ? "../../dist/web" : "../../web", import.meta.url),
);

export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { shopDir, port, openDemo = null, measurer = measureApart(), share = {} } = options;
  const store = await openShop(shopDir);
  const events = eventHub();
  const jobs = jobQueue({ atOnce: threads, changed: ({ id }) => events.send({ changed: "job", id }) });
  const now = () => new Date();
  const sharing = sharingOf(
    { store, now, changed: () => events.send({ changed: "sharing" }) },
    { ...share, port: share.port ?? (port === 0 ? 0 : port + 1) },
  );
  const app = await shopApp({ store, events, jobs, measurer, now, openDemo, sharing }, webDir);
  sharing.answerWith((request, response) => app.routing(request, response));
  // What is open ends first: an event stream or a long picture would otherwise hold the server up.
  app.addHook("preClose", async () => {
    await sharing.close();
    events.close();
    await jobs.close();
  });
  app.addHook("onClose", async () => {
    await measurer.close();
    await store.close();
  });
  try {
    // This machine alone: here nobody is asked who they are.
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
  await startSharing(sharing, share.start ?? (await store.settings.sharing()));
  return { url: `http://127.0.0.1:${found}/`, sharing, close: () => app.close() };
}

/** What the command line asks for holds for this run; what was chosen on the page, until it is chosen otherwise. */
async function startSharing(sharing: Sharing, wanted: SharingWay | "not" | SharingChoice | null): Promise<void> {
  if (wanted === null || wanted === "not") return;
  const choice = typeof wanted === "string" ? { on: true, way: wanted } : wanted;
  if (choice.on) await sharing.choose(choice, { keep: false });
}
