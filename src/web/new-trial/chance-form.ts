/** What the curve of chances needs of the form: names may still be missing, the numbers may not. */
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { differenceToFind } from "../../core/trial/offered-margins.ts";
import { planAssumptions } from "../../core/trial/simulated-plan.ts";
import type { ChancePlan } from "../outlook/chance-plan.ts";
import { typedNumber } from "../parts/quantity.ts";
import { draftOf, type TreatmentForm, type TrialForm } from "./trial-form.ts";

/** `missing`: what the user has to say before anything can be simulated. */
export type ChanceWish =
  | { plan: ChancePlan; missing: null }
  | { plan: null; missing: "draft" | "control" | "size"; declared: DeclaredQuestion | null };

/** The first question that is asked; witnesses are no part of it. */
export function chanceWish(form: TrialForm): ChanceWish {
  const { draft } = draftOf(withNames(form));
  const declared = draft?.questions[0] ?? null;
  if (draft === null || declared === null) return { plan: null, missing: "draft", declared };
  const control = typedNumber(controlTyped(form, declared));
  if (control === null) return { plan: null, missing: "control", declared };
  const size = form.chanceSize.trim() === "" ? differenceToFind(declared) : typedNumber(form.chanceSize);
  if (size === null) return { plan: null, missing: "size", declared };
  const shape = typedNumber(form.chanceShape);
  const assumed = { ...planAssumptions(control), ...(shape === null ? {} : { shape }) };
  return { plan: { draft, declared, size, assumed }, missing: null };
}

/** Days by which half of the control has rusted stand in the form already; other responses have a field of their own. */
export function controlTyped(form: TrialForm, { response }: Pick<DeclaredQuestion, "response">): string {
  return response === "time to first rust" ? form.controlMedian : form.chanceControl;
}

/** Coupons of each treatment that is compared: the fewest, and whether they differ. null: one is not a number yet. */
export function couponsTyped(treatments: readonly TreatmentForm[]): { each: number; unequal: boolean } | null {
  const typed = treatments.filter((one) => one.role !== "witness").map((one) => typedNumber(one.coupons));
  const numbers = typed.filter((one) => one !== null);
  if (numbers.length < typed.length || numbers.length === 0) return null;
  return { each: Math.min(...numbers), unequal: new Set(numbers).size > 1 };
}

/** So many of each treatment that is compared. */
export function withEach(treatments: readonly TreatmentForm[], each: number): TreatmentForm[] {
  return treatments.map((one) => (one.role === "witness" ? one : { ...one, coupons: String(each) }));
}

function withNames(form: TrialForm): TrialForm {
  const treatments = form.treatments.map((one, at) => ({ ...one, name: one.name.trim() || `treatment ${at + 1}` }));
  return { ...form, question: form.question.trim() || "?", treatments };
}
