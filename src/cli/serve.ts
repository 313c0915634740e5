/** `serve`: the page and its API for one shop, until Ctrl-C. */
import { Command, InvalidArgumentError } from "commander";
import { calendarDate } from "../server/calendar-date.ts";
import { openDemo } from "../server/demo/open-demo.ts";
import { PortTaken, type RunningServer, startServer } from "../server/start-server.ts";
import { ShopInUse } from "../store/open-shop.ts";
import { InputRefused } from "./exit.ts";
import { demoFolder, shopFolder } from "./shop-folder.ts";

export function serveCommand(): Command {
  return new Command("serve")
    .description("serve a shop's page on this machine")
    .option("--port <number>", "where it listens; 0 takes any free port", portNumber, 4477)
    .option("--shop <dir>", "the shop's folder (made when it is not there)", shopFolder())
    .option("--json", "one JSON value on standard output, once it listens")
    .addHelpText("after", "\nExample:\n  coatwright serve --shop ./shed --port 4480")
    .action(async (options: { port: number; shop: string; json?: boolean }) => {
      const demo = demoBeside();
      const opening = () => startServer({ shopDir: options.shop, port: options.port, openDemo: demo.open });
      await serveUntilAsked(opening, options);
      await demo.close();
    });
}

/** Starts a server, says where it is, and closes it on Ctrl-C. */
export async function serveUntilAsked(
  opening: () => Promise<RunningServer>,
  options: { shop: string; json?: boolean },
): Promise<void> {
  const server = await opening().catch(inWords);
  const { url } = server;
  console.log(
    options.json ? JSON.stringify({ url, shop: options.shop }) : `Coatwright serves ${options.shop} at ${url}`,
  );
  if (!options.json) console.error("Ctrl-C ends it.");
  await askedToEnd();
  await server.close();
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
