/** `serve`: the page and its API for one shop, until Ctrl-C. */
import { Command, InvalidArgumentError, Option } from "commander";
import { type PairingCode, type SharingWay, sharingWay } from "../api/sharing.ts";
import { calendarDate } from "../server/calendar-date.ts";
import { openDemo } from "../server/demo/open-demo.ts";
import { PortTaken, type RunningServer, type ShareOptions, startServer } from "../server/start-server.ts";
import { ShopInUse } from "../store/open-shop.ts";
import { InputRefused, WrongUsage } from "./exit.ts";
import { demoFolder, shopFolder } from "./shop-folder.ts";

export function serveCommand(): Command {
  return new Command("serve")
    .description("serve a shop's page on this machine, and to the local network where that is asked for")
    .option("--port <number>", "where it listens; 0 takes any free port", portNumber, 4477)
    .option("--shop <dir>", "the shop's folder (made when it is not there)", shopFolder())
    .addOption(sharedHow())
    .option("--no-share", "this time not shared, whatever was chosen on the page")
    .option("--share-port <number>", "where the local network gets in (default: one above --port)", portNumber)
    .option("--cert <file>", "your own certificate for the shared page, PEM (with --key)")
    .option("--key <file>", "its private key, PEM")
    .option("--json", "one JSON value on standard output, once it listens")
    .addHelpText("after", "\nExample:\n  coatwright serve --shop ./shed --port 4480\n  coatwright serve --share")
    .action(async (options: ServeOptions) => {
      const share = shareOptions(options);
      const demo = demoBeside();
      const opening = () => startServer({ shopDir: options.shop, port: options.port, openDemo: demo.open, share });
      await serveUntilAsked(opening, options);
      await demo.close();
    });
}

type ServeOptions = {
  port: number;
  shop: string;
  /** undefined: as it was left on the page; true: asked for without a word how. */
  share?: SharingWay | boolean;
  sharePort?: number;
  cert?: string;
  key?: string;
  json?: boolean;
};

function sharedHow(): Option {
  const words =
    "share it this time with paired devices on the local network: encrypted, or plain (anybody there can read)";
  return new Option("--share [how]", words).choices(sharingWay.options).preset("encrypted");
}

function shareOptions({ share, sharePort, cert, key }: ServeOptions): ShareOptions {
  if ((cert === undefined) !== (key === undefined))
    throw new WrongUsage("--cert and --key belong together: a certificate and its private key, both in PEM form.");
  const start = typeof share === "string" ? share : share === false ? "not" : undefined;
  return {
    ...(start && { start }),
    ...(sharePort !== undefined && { port: sharePort }),
    ...(cert !== undefined && key !== undefined && { certificateFiles: { certFile: cert, keyFile: key } }),
  };
}

/** Starts a server, says where it is, and closes it on Ctrl-C. */
export async function serveUntilAsked(
  opening: () => Promise<RunningServer>,
  options: { shop: string; json?: boolean },
): Promise<void> {
  const server = await opening().catch(inWords);
  const { url } = server;
  const shared = await sharedWith(server);
  if (options.json) console.log(JSON.stringify({ url, shop: options.shop, shared }));
  else {
    console.log(`Coatwright serves ${options.shop} at ${url}`);
    for (const line of sharedText(shared)) console.log(line);
    console.error("Ctrl-C ends it.");
  }
  await askedToEnd();
  await server.close();
}

type Shared = { way: SharingWay; addresses: string[]; failure: string | null; firstCode: PairingCode | null } | null;

/** Null: not shared. Where no device is let in yet, the first one may come from the network: a machine without a screen. */
async function sharedWith({ sharing }: RunningServer): Promise<Shared> {
  const { on, way, addresses, failure } = sharing.state();
  if (!on && failure === null) return null;
  const firstCode = on && !(await sharing.hasDevices()) ? sharing.pairing.open("owner") : null;
  return { way, addresses, failure, firstCode: firstCode && { ...firstCode, addresses: sharing.pairAddresses() } };
}

function sharedText(shared: Shared): string[] {
  if (!shared) return [];
  const { way, addresses, failure, firstCode } = shared;
  const lines = failure === null ? [] : [`Nobody on the local network reaches it: ${failure}`];
  if (addresses.length > 0) lines.push(`Shared on the local network (${way}) at ${addresses.join(" or ")}`);
  if (firstCode)
    lines.push(
      `No device is let in yet. The first, as owner, within 5 minutes: ${firstCode.addresses[0]}, code ${firstCode.code}`,
    );
  return lines;
}

/** The demonstration shop, opened when the page first asks for it, on a free port of its own. */
function demoBeside() {
  let opened: Promise<RunningServer> | null = null;
  return {
    open() {
      const today = calendarDate(new Date());
      opened ??= openDemo({ dir: demoFolder(), port: 0, today, progress: () => undefined });
      // Tried again at the next press when it could not be made.
      opened.catch(() => {
        opened = null;
      });
      return opened;
    },
    close: async () => (await opened)?.close(),
  };
}

export function portNumber(text: string): number {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new InvalidArgumentError("Expected a whole number from 0 to 65535.");
  return port;
}

function inWords(error: unknown): never {
  if (error instanceof PortTaken || error instanceof ShopInUse) throw new InputRefused(error.message);
  throw error;
}

function askedToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => resolve());
  });
}
