/** How much the p of a comparison hangs on any one unit. Printed for the reader; it changes no verdict. */
import { pairUnits } from "./comparable-treatments.ts";
import { fittedModels } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { fullDrawing, setTest } from "./rearranged-sets.ts";
import { trialLayout } from "./units-of-replication.ts";
import { pairT } from "./value-effect.ts";

/** Smallest and largest p of the pair alone when one of its units is left out; null: too few are left for any. */
export function leaveOneOutRange(
  question: Question,
  first: string,
  second: string,
): { lowest: number; highest: number } | null {
  const units = pairUnits(question, trialLayout(question), first, second);
  if (Math.min(...units.map((own) => own.length)) < 2) return null;
  const p = units.flat().map((unit) => {
    const out = new Set(unit.coupons.map(({ coupon }) => coupon));
    return pairP({ ...question, coupons: question.coupons.filter(({ coupon }) => !out.has(coupon)) }, first, second);
  });
  return { lowest: Math.min(...p), highest: Math.max(...p) };
}

/** As in the answer: exact by rearranging; of measured values the t with the scatter of the trial, where there is any. */
function pairP(question: Question, first: string, second: string): number {
  const layout = trialLayout(question);
  const values = question.kind === "continuous" ? fittedModels(question, layout).family.value : null;
  const tested = values && pairT(values(first, second), first, second);
  return tested ? tested.p : setTest(question, layout, fullDrawing)([first, second], "pairs").p;
}
