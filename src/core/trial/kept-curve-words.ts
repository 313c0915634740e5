/** What a kept curve says and how it was made, in sentences. */
import { assumptionWords, chanceSentence } from "./chance-words.ts";
import type { KeptPoint, Simulation } from "./simulation.ts";

/** What the plan's own number of coupons would show, a sentence for each truth. */
export function keptSentences(curve: Simulation): string[] {
  const { declared, size, each, finishes } = curve;
  return curve.points
    .filter((point) => point.each === each)
    .map(({ line, shown, all }) =>
      chanceSentence({ response: declared, better: line, size, each, finishes }, { each: shown, all }),
    );
}

/** Trials of every point, the largest error, seed and program, then what was assumed. */
export function keptMethodWords(curve: Simulation, blocked: boolean): string[] {
  const { declared, assumed, scatterFrom, seed, draws, program, points } = curve;
  const error = Math.max(...points.map((point) => point.shown.error));
  return [
    `${trialsWords(curve)} Monte Carlo standard error at most ${(100 * error).toFixed(1)} points. Seed ${seed}; ${draws} random rearrangements in a trial where not all are counted; Coatwright ${program}.`,
    `${assumptionWords(declared, assumed, blocked)}${scatterFrom === "" ? "" : ` ${scatterFrom}`}`,
  ];
}

function trialsWords({ points, wanted }: Simulation): string {
  const counts = points.map((point) => point.trials);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  if (least >= wanted) return `${wanted} invented trials at every point.`;
  const spans = least === most ? `${least}` : `${least} to ${most}`;
  return `Stopped before its end: ${spans} invented trials at a point instead of ${wanted}, as the table says.`;
}

/** A table row for each number of coupons, with what each truth gave. */
export function keptRows({ points }: Simulation): { each: number; one: KeptPoint | null; all: KeptPoint | null }[] {
  const numbers = [...new Set(points.map((point) => point.each))].sort((a, b) => a - b);
  const at = (each: number, line: KeptPoint["line"]) =>
    points.find((point) => point.each === each && point.line === line) ?? null;
  return numbers.map((each) => ({ each, one: at(each, "one"), all: at(each, "all") }));
}
