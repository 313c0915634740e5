/**
 * Two devices wrote down one and the same reading of a coupon (a wear test, a tape class, a value, a weighing, a finish
 * colour, a time to first rust), neither knowing of the other. Both are kept; the one written down first counts, the other stands beside it
 * until somebody says which stands. A reading by somebody who could know of the first is refused or counts as a further
 * one, as ever.
 */
import { deltaE2000 } from "../vision/colour-difference.ts";
import type { Lab } from "../vision/colour-lab.ts";
import { sameValue } from "./same-value.ts";
import { type Timed, unknownToEachOther, writtenAt } from "./written-at.ts";

type Said = Timed & {
  id: string;
  device?: string;
  corrects: { id: string } | null;
  body: { kind: string } & Readonly<Record<string, unknown>>;
};

/** `differs` may say the same as `counts`: then there is nothing to ask, and it still is not counted twice. */
export type ReadTwice<One> = { counts: One; differs: One };

type Body = Said["body"];
type Reading = { of: readonly string[]; saysSame: (one: Body, other: Body) => boolean };

const same =
  (...fields: string[]): Reading["saysSame"] =>
  (one, other) =>
    fields.every((field) => sameValue(one[field], other[field]));

/** What makes two of a kind one and the same reading, and when they say the same. Of a colour only two devices on one date: a further photograph by the same hand is meant to be averaged. */
const readings: Partial<Record<string, Reading>> = {
  "tape test": { of: ["coupon", "when"], saysSame: same("tapeClass") },
  "first rust": { of: ["coupon"], saysSame: same("leftDays", "rightDays") },
  "wear test": { of: ["coupon", "place"], saysSame: same("leftStrokes", "rightStrokes", "massLostMg") },
  value: { of: ["coupon", "name"], saysSame: same("value") },
  weighing: { of: ["coupon", "state"], saysSame: same("massG") },
  "finish colour": { of: ["coupon", "when", "state"], saysSame: looksSame },
};

/** ΔE00: about what an eye just tells side by side. Two photographs never read one colour to the digit. */
const justVisible = 1;

function looksSame(one: Body, other: Body): boolean {
  const [first, second] = [one, other].map(({ reading }) => (reading as { lab: Lab }).lab) as [Lab, Lab];
  return deltaE2000({ first, second }) <= justVisible;
}

/** Sets apart what stands but does not count. `all`: with what was corrected, since a correction is as old as what it corrects. */
export function readTwice<One extends Said>(
  standing: readonly One[],
  all: readonly Said[],
): { counting: One[]; twice: ReadTwice<One>[] } {
  const first = (one: Said): Said => {
    const corrected = all.find(({ id }) => id === one.corrects?.id);
    return corrected ? first(corrected) : one;
  };
  const seen = new Map<string, One[]>();
  const twice: ReadTwice<One>[] = [];
  // Only what came from a device can be told apart from what was written at the shop's own machine.
  if (standing.every(({ device }) => device === undefined)) return { counting: [...standing], twice };
  for (const one of inOrderOf(standing, (each) => writtenAt(first(each)))) {
    const key = keyOf(one);
    if (key === null) continue;
    const earlier = seen.get(key) ?? [];
    const counts = earlier.find((other) => unknownToEachOther(first(other), first(one)));
    if (counts) twice.push({ counts, differs: one });
    else seen.set(key, [...earlier, one]);
  }
  const beside = new Set(twice.map(({ differs }) => differs));
  return { counting: standing.filter((one) => !beside.has(one)), twice };
}

/** Between which somebody has to choose. */
export function saysOtherwise<One extends Pick<Said, "body">>({ counts, differs }: ReadTwice<One>): boolean {
  return !(readings[counts.body.kind]?.saysSame(counts.body, differs.body) ?? true);
}

/** Null: no reading, or a further one that says so. */
function keyOf({ body }: Said): string | null {
  const { of = null } = readings[body.kind] ?? {};
  return of === null || body.again === true ? null : JSON.stringify([body.kind, ...of.map((field) => body[field])]);
}

const inOrderOf = <One>(all: readonly One[], at: (one: One) => string): One[] =>
  all.toSorted((one, other) => Date.parse(at(one)) - Date.parse(at(other)));
