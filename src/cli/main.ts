/** The command line: one file per command, exit codes that mean something. */
import { Command, CommanderError } from "commander";
import { InputError } from "../core/input-error.ts";
import { programVersion } from "../server/program-version.ts";
import { backupCommand } from "./backup.ts";
import { checkCommand } from "./check.ts";
import { climateCommand } from "./climate.ts";
import { demoCommand } from "./demo.ts";
import { CheckFailed, exitCodes, InputRefused, WrongUsage } from "./exit.ts";
import { exportCommand } from "./export.ts";
import { findingsCommand } from "./findings.ts";
import { importCommand } from "./import.ts";
import { measureCommand } from "./measure.ts";
import { planCommand } from "./plan.ts";
import { reportCommand } from "./report.ts";
import { serveCommand } from "./serve.ts";

export function program(): Command {
  const coatwright = new Command("coatwright")
    .description("From a stack of numbered coupons to what really protects your steel.")
    .version(programVersion(), "--version", "print the version")
    .exitOverride()
    .showHelpAfterError();
  coatwright.addCommand(checkCommand());
  coatwright.addCommand(demoCommand());
  coatwright.addCommand(findingsCommand());
  coatwright.addCommand(planCommand());
  coatwright.addCommand(importCommand());
  coatwright.addCommand(climateCommand());
  coatwright.addCommand(exportCommand());
  coatwright.addCommand(measureCommand());
  coatwright.addCommand(reportCommand());
  coatwright.addCommand(serveCommand());
  coatwright.addCommand(backupCommand());
  for (const command of everyCommand(coatwright)) command.exitOverride();
  return coatwright;
}

function everyCommand(command: Command): Command[] {
  return command.commands.flatMap((child) => [child, ...everyCommand(child)]);
}

/** Runs the command line; returns the exit code. */
export async function run(args: readonly string[]): Promise<number> {
  try {
    await program().parseAsync(args, { from: "user" });
    return exitCodes.done;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.wrongUsage;
    if (error instanceof CheckFailed) return exitCodes.checkFailed;
    if (error instanceof WrongUsage) {
      console.error(error.message);
      return exitCodes.wrongUsage;
    }
    if (error instanceof InputError || error instanceof InputRefused) {
      const option = error instanceof InputError && error.settledBy !== null ? ` (--${error.settledBy})` : "";
      console.error(`${error.message}${option}`);
      return exitCodes.inputRefused;
    }
    console.error(error);
    return exitCodes.broke;
  }
}
