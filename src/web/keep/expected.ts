/** What was expected of a new trial's questions, kept on this device for simulating its plan once more. */
import type { ChanceForm } from "../new-trial/asked-form.ts";
import { keep } from "./kept.ts";

/** Of each question, in the plan's order; empty texts: not said. */
export type Expected = { controlMedian: string; chanceOf: string; chances: ChanceForm[] };

export const expectedDraft = (trial: string): string => `expected ${trial}`;

/** As the draft that the trial's own page begins with. */
export function keepExpected(trial: string, expected: Expected): void {
  keep(`draft ${expectedDraft(trial)}`, expected);
}
