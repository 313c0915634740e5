/** `demo`: the demonstration shop, made where it is not there yet, and served. */
import { Command } from "commander";
import { calendarDate } from "../server/calendar-date.ts";
import { openDemo } from "../server/demo/open-demo.ts";
import { portNumber, serveUntilAsked } from "./serve.ts";
import { demoFolder } from "./shop-folder.ts";

export function demoCommand(): Command {
  return new Command("demo")
    .description("open the demonstration shop: invented data, rendered pictures")
    .option("--port <number>", "where it listens; 0 takes any free port", portNumber, 4478)
    .option("--shop <dir>", "its folder (made when it is not there)", demoFolder())
    .option("--json", "one JSON value on standard output, once it listens")
    .addHelpText("after", "\nExample:\n  coatwright demo --port 0")
    .action((options: { port: number; shop: string; json?: boolean }) => {
      const today = calendarDate(new Date());
      return serveUntilAsked(
        () => openDemo({ dir: options.shop, port: options.port, today, progress: shownShare() }),
        options,
      );
    });
}

/** Every tenth part, on standard error. */
function shownShare(): (share: number) => void {
  let shown = -1;
  return (share) => {
    const tenth = Math.floor(share * 10);
    if (tenth === shown) return;
    shown = tenth;
    console.error(`Making the demonstration shop: ${tenth * 10} %`);
  };
}
