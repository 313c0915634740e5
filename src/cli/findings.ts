/** `findings`: answers from a plain table, without any shop. */
import { Command } from "commander";
import { answerQuestion } from "../core/trial/answer-question.ts";
import { draggedTrials } from "../core/trial/chance-curve.ts";
import { inOrder } from "../core/trial/declared-order.ts";
import type { AnsweredQuestion, QuestionFindings } from "../core/trial/finding.ts";
import { confirmedUnits, nextTrialNote, nextTrials, withConfirmed } from "../core/trial/next-trial.ts";
import type { Question } from "../core/trial/question.ts";
import { tableQuestion } from "../core/trial/table-question.ts";
import { type AskOptions, tableAsk, withAskOptions } from "./ask-options.ts";
import { assumptionHint, findingsText } from "./findings-text.ts";
import { readTableFile, takeTable } from "./plain-table-file.ts";
import { withSimulation } from "./simulate.ts";
import { numberOption, readingWishes, type TableOptions, withTableOptions } from "./table-options.ts";

type FindingsOptions = TableOptions & AskOptions & { order?: string; simulate?: true; trials: number; json?: true };

export function findingsCommand(): Command {
  const command = new Command("findings")
    .description("what a plain table really shows: effects, intervals, exact tests and plain verdicts")
    .argument("<file>", "CSV of looks, of times, or of values");
  return withAskOptions(withTableOptions(command))
    .option("--order <names>", "treatments in an order declared beforehand (a,b,c): one test of it, no comparisons")
    .option("--simulate", "confirm by simulation how many of each would tell, where it is not told yet")
    .option("--trials <number>", "how many invented trials for each number of coupons", numberOption, draggedTrials)
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright findings shed.csv --control oiled --margin 1.5")
    .action(async (path: string, options: FindingsOptions) => {
      const table = takeTable(path, readTableFile(path, readingWishes(options)));
      const question = tableQuestion(table, tableAsk(table, options));
      const asked = options.order === undefined ? question : inOrder(question, options.order.split(","));
      const formula = answerQuestion(asked);
      const answer = options.simulate ? await confirmed(asked, formula, options.trials) : formula;
      if (!options.json) console.log(`${findingsText(answer)}\n\n${assumptionHint(options)}`.trimEnd());
      else console.log(JSON.stringify(jsonForm(answer), null, 2));
    });
}

/** "What would tell" by simulation, where the formula's answer stood; the form stays. */
async function confirmed(question: Question, answer: AnsweredQuestion, trials: number): Promise<AnsweredQuestion> {
  const open = nextTrials(question, answer);
  if (open.length === 0) return answer;
  return withSimulation(trials, async (simulate) => {
    const findings = [...answer.findings];
    for (const { first, second, start, trialOf } of open) {
      const chanceAt = async (each: number) => {
        const { pairs } = await simulate(trialOf(each), `${first} against ${second}, ${each} of each`);
        return pairs.find((pair) => pair.first === first && pair.second === second)?.shown?.share ?? 0;
      };
      const wouldTell = await confirmedUnits(question, start, chanceAt);
      const at = findings.findIndex((one) => one.first === first && one.second === second);
      const finding = findings[at];
      if (finding) findings[at] = withConfirmed(question, finding, wouldTell);
    }
    return { ...answer, findings, notes: [...answer.notes, nextTrialNote(question, trials)] };
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
