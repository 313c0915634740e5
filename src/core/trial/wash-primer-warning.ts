/** A warning before anything is coated: an acid wash primer on a conversion coating. */
import type { RouteStep } from "./trial-record.ts";

const isWashPrimer = (step: string) => /(etch|wash|acid)[ -]*primer/i.test(step);
const isConversionCoat = (step: string) => /phosphat/i.test(step);
const isUndone = (step: string) => /strip/i.test(step);

type Treatment = { name: string; route: readonly RouteStep[] | null };

/**
 * The sentence for routes that put an etch primer on phosphated steel; null where none does.
 * Common practice, and disputed (years of good service are told of too): so it warns and refuses nothing.
 */
export function washPrimerWarning(treatments: readonly Treatment[]): string | null {
  const names = treatments.filter(isPrimedOnCoat).map(({ name }) => `“${name}”`);
  if (names.length === 0) return null;
  const subject = names.length === 1 ? `${names[0]} puts` : `${names.slice(0, -1).join(", ")} and ${names.at(-1)} put`;
  return `${subject} an etch primer on a phosphate coating. Its acid is meant for bare metal and can attack the crystal, a heavy coating most of all: a primer without acid is the plain choice. Common practice, not a rule; write down where the film parts in the tape test.`;
}

function isPrimedOnCoat({ route }: Treatment): boolean {
  let coated = false;
  for (const { name } of route ?? []) {
    if (isConversionCoat(name) && !isUndone(name)) coated = true;
    else if (isUndone(name)) coated = false;
    else if (coated && isWashPrimer(name)) return true;
  }
  return false;
}
