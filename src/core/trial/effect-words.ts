/** An effect in the words of the trade, seen from the treatment that stands better. */
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";

/** Significant places of a printed effect: no tape measure has more. */
const places = 2;

/** A number with no more places than coupons can bear. */
export function numberWords(value: number): string {
  if (value !== 0 && (Math.abs(value) < 1e-3 || Math.abs(value) >= 1e5)) return value.toPrecision(places);
  // 1.04 is no 1: close to "no difference" one more place is needed, and beyond ten whole numbers are kept.
  const more = Math.abs(value) >= 10 || Math.abs(value - 1) < 0.1;
  return String(Number(value.toPrecision(more ? places + 1 : places)));
}

/** The same effect with the other treatment standing first. */
export function turned(effect: Effect): Effect {
  const ratio = effect.name.endsWith("ratio");
  const turn = (value: number | null) => (value === null ? null : ratio ? 1 / value : -value);
  return { ...effect, value: turn(effect.value), lower: turn(effect.upper), upper: turn(effect.lower) };
}

/** "2.1 times later", "1 class better": the size, for a first treatment that stands better by it. */
export function sizeWords(question: Question, effect: Pick<Effect, "name">, value: number): string {
  const number = numberWords(value);
  switch (effect.name) {
    case "time ratio":
      return `${number} times later`;
    case "stroke ratio":
      return `${number} times as many ${question.unit}`;
    case "area ratio":
      return `${number} times the rusted area`;
    case "Cliff's delta":
      return `better in ${pairingsWords(value)}`;
    case "class shift":
      return Math.abs(value) === 1 ? `${number} class better` : `${number} classes better`;
    case "difference":
      return `${numberWords(Math.abs(value))}${unitOf(question)} ${value < 0 ? "lower" : "higher"}`;
    case "ratio":
      return `${number} times the value`;
    case "difference of shares":
      return `${numberWords(100 * value)} percentage points more came out well`;
  }
}

function unitOf({ unit }: Question): string {
  return unit === "" ? "" : ` ${unit}`;
}

/** "1.1 to 4.0", where both exist. */
export function rangeWords(effect: Effect): string {
  return effect.lower === null || effect.upper === null
    ? limitsWords(effect)
    : limitsWords(effect)
        .replace(/^between /, "")
        .replace(" and ", " to ");
}

/** Bare limits for "95 % between 1.1 and 4.0"; what does not exist is said in words. */
export function limitsWords({ lower, upper, name }: Effect): string {
  const word = (value: number) =>
    name === "Cliff's delta"
      ? percentWords((value + 1) / 2)
      : numberWords(name === "difference of shares" ? 100 * value : value);
  if (lower !== null && upper !== null) return `between ${word(lower)} and ${word(upper)}`;
  if (lower !== null) return `at least ${word(lower)}, no upper limit`;
  return upper === null ? "no limit either way" : `at most ${word(upper)}, no lower limit`;
}

/** Cliff's delta as the chance that a unit of the first stands better than one of the second, halves counted for ties. */
function pairingsWords(delta: number): string {
  return `${percentWords((delta + 1) / 2)} of the pairings`;
}

/** A fraction as percent, to a tenth. */
export function percentWords(confidence: number): string {
  return `${Number((100 * confidence).toFixed(1))} %`;
}

/** "2.1 times", "1 class": how far off a limit lies, without saying which way; Cliff's delta as the share of better pairings. */
export function distanceWords(question: Question, { name }: Pick<Effect, "name">, limit: number): string {
  const distance = numberWords(Math.abs(limit));
  switch (name) {
    case "time ratio":
    case "stroke ratio":
    case "area ratio":
    case "ratio":
      return `${numberWords(limit >= 1 || limit === 0 ? limit : 1 / limit)} times`;
    case "Cliff's delta":
      return pairingsWords(limit);
    case "class shift":
      return `${distance} ${distance === "1" ? "class" : "classes"}`;
    case "difference":
      return `${distance}${unitOf(question)}`;
    case "difference of shares":
      return `${numberWords(100 * Math.abs(limit))} percentage points`;
  }
}
