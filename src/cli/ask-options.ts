/** Options that say what is asked of a plain table: the same for `findings` and `import`. */
import { type Command, Option } from "commander";
import { InputError } from "../core/input-error.ts";
import type { PlainTable } from "../core/trial/plain-table.ts";
import type { RustScale } from "../core/trial/scale-ends.ts";
import type { TableAsk } from "../core/trial/table-question.ts";
import { numberOption, type TableOptions, wholeOption } from "./table-options.ts";

export type AskOptions = {
  control?: string;
  witness?: string;
  family?: "control" | "pairs";
  margin?: number;
  log?: true;
  threshold?: number;
  at?: number;
  treatedSeparately?: true;
  notRandomised?: true;
  notBlind?: true;
  exploratory?: true;
  seed: number;
};

export function withAskOptions(command: Command): Command {
  return command
    .option("--control <name>", "what the others are compared with (else the treatment called control)")
    .option("--witness <name>", "bare coupons that show how harsh the site was; never compared")
    .addOption(new Option("--family <family>", "which comparisons were meant").choices(["control", "pairs"]))
    .option("--margin <number>", "the smallest difference that matters", numberOption)
    .option("--log", "continuous values: ratios instead of differences")
    .option("--threshold <percent>", "a face counts as rusted strictly above it (0.01)", numberOption)
    .option("--at <day>", "area or grade on this day of looks", numberOption)
    .option("--treated-separately", "each coupon had its own dip or wipe")
    .option("--not-randomised", "no lots were drawn for which coupon got what")
    .option("--not-blind", "whoever judged knew the treatment")
    .option("--exploratory", "the question was not declared before the first look")
    .option("--seed <number>", "for what is drawn at random", wholeOption, 1);
}

export function tableAsk(table: PlainTable, options: TableOptions & AskOptions): TableAsk {
  return {
    response: table.kind === "values" ? null : looksResponse(options.response),
    scale: table.kind === "looks" ? rustScale(options.scale) : null,
    thresholdPercent: options.threshold ?? null,
    atDay: options.at ?? null,
    control: options.control ?? null,
    witness: options.witness ?? null,
    family: options.family ?? null,
    margin: options.margin ?? null,
    ratio: options.log ?? false,
    treatedSeparately: options.treatedSeparately ?? false,
    notRandomised: options.notRandomised ?? false,
    notBlind: options.notBlind ?? false,
    exploratory: options.exploratory ?? false,
    seed: options.seed,
  };
}

function looksResponse(response: string | undefined): TableAsk["response"] {
  if (response === undefined || response === "time" || response === "area" || response === "grade")
    return response ?? null;
  throw new InputError("response", response, 'one of "time", "area", "grade": this is a table of looks or times');
}

function rustScale(scale: TableOptions["scale"]): RustScale | null {
  if (scale === "iso2409") throw new InputError("scale", scale, 'a scale of rust: "iso10289", "d610" or "iso4628"');
  return scale ?? null;
}
