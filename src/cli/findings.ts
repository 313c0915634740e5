/** `findings`: answers from a plain table, without any shop. */
import { Command } from "commander";
import { answerQuestion } from "../core/trial/answer-question.ts";
import { inOrder } from "../core/trial/declared-order.ts";
import type { AnsweredQuestion, QuestionFindings } from "../core/trial/finding.ts";
import { tableQuestion } from "../core/trial/table-question.ts";
import { type AskOptions, tableAsk, withAskOptions } from "./ask-options.ts";
import { findingsText } from "./findings-text.ts";
import { readTableFile, takeTable } from "./plain-table-file.ts";
import { readingWishes, type TableOptions, withTableOptions } from "./table-options.ts";

type FindingsOptions = TableOptions & AskOptions & { order?: string; json?: true };

export function findingsCommand(): Command {
  const command = new Command("findings")
    .description("what a plain table really shows: effects, intervals, exact tests and plain verdicts")
    .argument("<file>", "CSV of looks, of times, or of values");
  return withAskOptions(withTableOptions(command))
    .option("--order <names>", "treatments in an order declared beforehand (a,b,c): one test of it, no comparisons")
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright findings shed.csv --control oiled --margin 1.5")
    .action((path: string, options: FindingsOptions) => {
      const table = takeTable(path, readTableFile(path, readingWishes(options)));
      const question = tableQuestion(table, tableAsk(table, options));
      const answer = answerQuestion(
        options.order === undefined ? question : inOrder(question, options.order.split(",")),
      );
      console.log(options.json ? JSON.stringify(jsonForm(answer), null, 2) : findingsText(answer));
    });
}

/** The fixed form that scripts read; points and units are for those who draw. */
function jsonForm({
  points: _points,
  witnesses: _witnesses,
  unit: _unit,
  ...form
}: AnsweredQuestion): QuestionFindings {
  return form;
}
