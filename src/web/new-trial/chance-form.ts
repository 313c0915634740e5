/** What the curve of chances needs of the form: names may still be missing, the numbers may not. */
import { type DeclaredQuestion, responseKind, responseName } from "../../core/trial/declared-question.ts";
import { familyWords } from "../../core/trial/family-words.ts";
import { differenceToFind } from "../../core/trial/offered-margins.ts";
import { asksColour, type PlanAssumptions, planAssumptions } from "../../core/trial/plan-assumptions.ts";
import { hasOwnCoupons } from "../../core/trial/read-coupons.ts";
import type { TakenScatter } from "../../core/trial/taken-scatter.ts";
import { capital } from "../../report/capital.ts";
import type { Expected } from "../keep/expected.ts";
import type { ChancePlan } from "../outlook/chance-plan.ts";
import { typedNumber } from "../parts/quantity.ts";
import { type AskedForm, blankChance, type ChanceForm } from "./asked-form.ts";
import { draftOf, type TreatmentForm, type TrialForm } from "./trial-form.ts";

/** `missing`: what the user has to say before anything can be simulated. */
export type ChanceWish =
  | { plan: ChancePlan; declared: DeclaredQuestion; missing: null }
  | { plan: null; missing: "draft" | "control" | "size" | "scatter"; declared: DeclaredQuestion | null };

/** The question that was chosen; witnesses are no part of it. */
export function chanceWish(form: TrialForm): ChanceWish {
  const { draft } = draftOf(withNames(form));
  const asked = chosenAsked(form);
  const declared = (asked && draft?.questions[form.asked.filter((one) => one.asked).indexOf(asked)]) ?? null;
  if (draft === null || declared === null) return { plan: null, missing: "draft", declared };
  const said = saidOf(form, declared);
  const control = typedNumber(said.control);
  if (control === null) return { plan: null, missing: "control", declared };
  const size = said.size.trim() === "" ? differenceToFind(declared) : typedNumber(said.size);
  if (size === null) return { plan: null, missing: "size", declared };
  const scatter = said.scatter.trim() === "" ? {} : scatterTyped(declared, said.scatter);
  const blocks = said.blockLogSd === undefined ? {} : { blockLogSd: said.blockLogSd };
  if (scatter === null) return { plan: null, missing: "scatter", declared };
  return {
    plan: { draft, declared, size, assumed: { ...planAssumptions(control, declared), ...scatter, ...blocks } },
    declared,
    missing: null,
  };
}

/** Of the asked ones, by what they are about; the choice where there is more than one. */
export function chanceChoices(form: TrialForm): { value: string; label: string }[] {
  const { draft } = draftOf(withNames(form));
  const asked = form.asked.flatMap((one, at) => (one.asked ? [at] : []));
  return asked.flatMap((at, place) => {
    const declared = draft?.questions[place];
    return declared
      ? [{ value: String(at), label: `${capital(responseName(declared))}, ${familyWords(declared)}` }]
      : [];
  });
}

/** The asked one that is simulated. */
export function chosenAsked({ asked, chanceOf }: Pick<TrialForm, "asked" | "chanceOf">): AskedForm | null {
  const chosen = chanceOf === "" ? undefined : asked[Number(chanceOf)];
  return chosen?.asked ? chosen : (asked.find((one) => one.asked) ?? null);
}

/** Days by which half of the control has rusted stand in the form already; all else stands with its question. */
export function saidOf(form: TrialForm, { response }: Pick<DeclaredQuestion, "response">): ChanceForm {
  const said = chosenAsked(form)?.chance ?? blankChance;
  return response === "time to first rust" ? { ...said, control: form.controlMedian } : said;
}

/** What was said anew of the chosen question, where it is kept. */
export function withSaid(form: TrialForm, said: Partial<ChanceForm>): Partial<TrialForm> {
  const kept = (before: ChanceForm | undefined): Partial<ChanceForm> => {
    const { from: _from, blockLogSd: _blocks, ...typed } = before ?? blankChance;
    // A scatter that is typed is no longer a former trial's.
    return said.scatter === undefined ? { ...before } : typed;
  };
  const chosen = chosenAsked(form);
  const median =
    chosen?.response === "time to first rust" && said.control !== undefined ? { controlMedian: said.control } : {};
  const asked = form.asked.map((one) =>
    one === chosen ? { ...one, chance: { ...blankChance, ...kept(one.chance), ...said } } : one,
  );
  return { asked, ...median };
}

/** What was said of all questions, in the order in which they are asked. */
export function expectedOf(form: TrialForm): Expected {
  const asked = form.asked.filter((one) => one.asked);
  const chosen = chosenAsked(form);
  return {
    controlMedian: form.controlMedian,
    chanceOf: chosen === null ? "" : String(asked.indexOf(chosen)),
    chances: asked.map((one) => one.chance ?? blankChance),
  };
}

/** The form of a plan, whose questions come first, with what was said of them. */
export function withExpected(form: TrialForm, { controlMedian, chanceOf, chances }: Expected): TrialForm {
  const asked = form.asked.map((one, at) => {
    const chance = one.asked ? chances[at] : undefined;
    return chance ? { ...one, chance } : one;
  });
  return { ...form, controlMedian, chanceOf, asked };
}

/** The scatter in the place where the simulation looks for it; null: no number. Yes and no have none of their own. */
function scatterTyped(declared: DeclaredQuestion, typed: string): Partial<PlanAssumptions> | null {
  const scatter = typedNumber(typed);
  if (scatter === null) return null;
  if (declared.response === "time to first rust") return { shape: scatter };
  if (declared.response === "strokes to breakthrough") return { strokesLogSd: scatter };
  switch (responseKind(declared)) {
    case "area":
      return { areaLog10Sd: scatter };
    case "ordinal":
      return { classSd: scatter };
    case "continuous":
      return asksColour(declared) ? { colourSd: scatter } : { coefficientOfVariation: scatter / 100 };
    default:
      return {};
  }
}

/** What a former trial lends, as it would be typed. */
export function saidByTrial({ scatter, control, words }: TakenScatter): Partial<ChanceForm> {
  const { shape, strokesLogSd, areaLog10Sd, classSd, colourSd, coefficientOfVariation, blockLogSd } = scatter;
  const percent =
    coefficientOfVariation === undefined ? undefined : Number((100 * coefficientOfVariation).toPrecision(3));
  const own = shape ?? strokesLogSd ?? areaLog10Sd ?? classSd ?? colourSd ?? percent;
  return {
    scatter: own === undefined ? "" : String(own),
    from: words,
    ...(blockLogSd === undefined ? {} : { blockLogSd }),
    ...(control === null ? {} : { control: String(control) }),
  };
}

/** Coupons of each treatment that the question reads: the fewest, and whether they differ. null: one is not a number yet. */
export function couponsTyped(
  form: TrialForm,
  { draft, declared }: ChancePlan,
): { each: number; unequal: boolean } | null {
  const compared = form.treatments.filter((one) => one.role !== "witness").map((one) => one.coupons);
  const typed = (hasOwnCoupons(draft, declared) ? [form.tapeCoupons] : compared).map(typedNumber);
  const numbers = typed.filter((one) => one !== null);
  if (numbers.length < typed.length || numbers.length === 0) return null;
  return { each: Math.min(...numbers), unequal: new Set(numbers).size > 1 };
}

/** So many of each for the question: of the treatments, or of those kept for its own test. */
export function withEach(form: TrialForm, { draft, declared }: ChancePlan, each: number): Partial<TrialForm> {
  if (hasOwnCoupons(draft, declared)) return { tapeCoupons: String(each) };
  const ofEach = (one: TreatmentForm) => (one.role === "witness" ? one : { ...one, coupons: String(each) });
  return { treatments: form.treatments.map(ofEach) };
}

function withNames(form: TrialForm): TrialForm {
  const treatments = form.treatments.map((one, at) => ({ ...one, name: one.name.trim() || `treatment ${at + 1}` }));
  const asked = form.asked.map((one) =>
    one.response === "value" && one.name.trim() === "" ? { ...one, name: "measured value" } : one,
  );
  return { ...form, question: form.question.trim() || "?", treatments, asked };
}
