/** `backup`: a verified copy of a shop, also of one that is being served. */
import { Command } from "commander";
import { BackupRefused, backupShop } from "../store/backup-shop.ts";
import { InputRefused } from "./exit.ts";
import { shopFolder } from "./shop-folder.ts";

export function backupCommand(): Command {
  return new Command("backup")
    .description("make a verified copy of a shop, also of a running one")
    .argument("<dir>", "a new or empty folder for the copy")
    .option("--shop <dir>", "the shop's folder", shopFolder())
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright backup /media/stick/shop-2026-06-01")
    .action(async (to: string, options: { shop: string; json?: boolean }) => {
      const made = await backupShop({ dir: options.shop, to }).catch((error: unknown) => {
        throw error instanceof BackupRefused ? new InputRefused(error.message) : error;
      });
      if (options.json) console.log(JSON.stringify(made));
      else
        console.log(
          `${made.to}: ${made.trials} trials, ${made.observations} observations, ${made.photos} pictures ` +
            `(${(made.bytes / 1e6).toFixed(1)} MB), each checked. Serve it with --shop to look inside. ` +
            "It is whole: photographs in it still say where they were taken, so keep it as you keep them.",
        );
    });
}
