/** Fifty trials of one row: verdicts, covered intervals and small p counted. */
import { answerQuestion } from "../src/core/trial/answer-question.ts";
import type { Effect, Verdict } from "../src/core/trial/finding.ts";
import { beyondMargin, drawFrom, inventedQuestion, treatmentNames, trueEffect } from "./invented-trials.ts";
import type { VerdictRow } from "./verdict-rows.ts";

export const trialsPerPiece = 50;
const draws = 499;
export const pLevels = [0.01, 0.05, 0.1, 0.2, 0.5] as const;

export type Cell = Partial<Record<Verdict, number>>;
export type CellName = "differControl" | "alikeControl" | "differOthers" | "alikeOthers";
/** Intervals at 95 % of one kind of effect: how many there were, how many held the truth, how many had both ends. */
export type Covered = { intervals: number; held: number; bounded: number };
export type Piece = {
  title: string;
  piece: number;
  trials: number;
  cells: Record<CellName, Cell>;
  falseShown: number;
  falseEquivalent: number;
  covered: Partial<Record<Effect["name"], Covered>>;
  /** p of pairs that are truly alike: how many there were, and how many at most each level. */
  alikeP: { all: number; atMost: number[] };
};

export function pieceOf({ trial }: VerdictRow, title: string, piece: number): Piece {
  const draw = drawFrom(seedOf(title, piece));
  const names = treatmentNames(trial);
  const factorOf = (name: string) => trial.factors[names.indexOf(name)]!;
  const result: Piece = {
    title,
    piece,
    trials: trialsPerPiece,
    cells: { differControl: {}, alikeControl: {}, differOthers: {}, alikeOthers: {} },
    falseShown: 0,
    falseEquivalent: 0,
    covered: {},
    alikeP: { all: 0, atMost: pLevels.map(() => 0) },
  };
  for (let one = 0; one < trialsPerPiece; one++) {
    const question = inventedQuestion(trial, draw, piece * trialsPerPiece + one + 1);
    const { findings } = answerQuestion(question, { draws });
    let [shown, equivalent] = [false, false];
    for (const finding of findings) {
      const alike = factorOf(finding.first) === factorOf(finding.second);
      const againstControl = finding.second === "control" || question.family === "pairs";
      const cell = result.cells[`${alike ? "alike" : "differ"}${againstControl ? "Control" : "Others"}`];
      cell[finding.verdict] = (cell[finding.verdict] ?? 0) + 1;
      shown ||= alike && finding.verdict === "shown";
      equivalent ||= beyondMargin(trial, finding) && finding.verdict === "equivalent within the margin";
      countInterval(result, finding.effect, trueEffect(trial, finding));
      if (alike && finding.p !== null) countP(result, finding.p);
    }
    if (shown) result.falseShown++;
    if (equivalent) result.falseEquivalent++;
  }
  return result;
}

function countInterval(result: Piece, effect: Effect | null, truth: number | null): void {
  if (effect === null || truth === null || effect.confidence < 0.95 - 1e-9) return;
  const covered = result.covered[effect.name] ?? { intervals: 0, held: 0, bounded: 0 };
  result.covered[effect.name] = covered;
  const { lower, upper } = effect;
  covered.intervals++;
  if (lower !== null && upper !== null) covered.bounded++;
  if ((lower === null || lower <= truth + 1e-9) && (upper === null || truth <= upper + 1e-9)) covered.held++;
}

function countP(result: Piece, p: number): void {
  result.alikeP.all++;
  for (const [at, level] of pLevels.entries()) if (p <= level + 1e-12) result.alikeP.atMost[at]!++;
}

/** A seed of its own for each piece of each row, whatever rows stand before it. */
function seedOf(title: string, piece: number): number {
  let hash = 2166136261;
  for (const letter of title) hash = Math.imul(hash ^ letter.charCodeAt(0), 16777619);
  return (hash >>> 0) + 20261 * piece;
}
