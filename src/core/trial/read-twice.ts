/**
 * Two devices wrote down one and the same reading of a coupon (a wear test, a tape class, a value, a weighing, a finish
 * colour, a time to first rust), neither knowing of the other. Both are kept; the one written down first counts, the other stands beside it
 * until somebody says which stands. A reading by somebody who could know of the first is refused or counts as a further
 * one, as ever.
 */
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

/** What makes two of a kind one and the same reading, and what they say. Of a colour only two devices on one date: a further photograph by the same hand is meant to be averaged. */
const readings: Partial<Record<string, { of: readonly string[]; says: readonly string[] }>> = {
  "tape test": { of: ["coupon", "when"], says: ["tapeClass"] },
  "first rust": { of: ["coupon"], says: ["leftDays", "rightDays"] },
  "wear test": { of: ["coupon", "place"], says: ["leftStrokes", "rightStrokes", "massLostMg"] },
  value: { of: ["coupon", "name"], says: ["value"] },
  weighing: { of: ["coupon", "state"], says: ["massG"] },
  "finish colour": { of: ["coupon", "when", "state"], says: ["reading"] },
};

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
  const { says = [] } = readings[counts.body.kind] ?? {};
  return says.some((field) => !sameValue(counts.body[field], differs.body[field]));
}

/** Null: no reading, or a further one that says so. */
function keyOf({ body }: Said): string | null {
  const { of = null } = readings[body.kind] ?? {};
  return of === null || body.again === true ? null : JSON.stringify([body.kind, ...of.map((field) => body[field])]);
}

const inOrderOf = <One>(all: readonly One[], at: (one: One) => string): One[] =>
  all.toSorted((one, other) => Date.parse(at(one)) - Date.parse(at(other)));
