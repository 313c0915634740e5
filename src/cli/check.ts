/** `check`: the methods against reference cases and pictures. */
import { Command } from "commander";
import { checkCases } from "./check-cases.ts";
import { checkPhotosCommand } from "./check-photos.ts";
import { CheckFailed } from "./exit.ts";

export function checkCommand(): Command {
  const check = new Command("check").description("hold the methods against the outside world");
  check
    .command("cases")
    .description("run reference cases through the methods they name")
    .argument("<path...>", "JSON files of cases, or folders of them")
    .option("--only <prefix...>", "only methods whose id starts so")
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright check cases reference/rating.json --only rating.")
    .action((paths: string[], options: { only?: string[]; json?: boolean }) => {
      const outcomes = checkCases(paths, options.only ?? []);
      const failed = outcomes.filter((one) => one.failure !== null);
      const passed = outcomes.length - failed.length;
      if (options.json) console.log(JSON.stringify({ passed, failed: failed.length, failures: failed }, null, 2));
      else {
        for (const one of failed) console.log(`${one.id}: ${one.failure}`);
        console.log(`${passed} passed, ${failed.length} failed`);
      }
      if (failed.length > 0) throw new CheckFailed();
    });
  check.addCommand(checkPhotosCommand());
  return check;
}
