/** A warning before anything is coated: an acid wash primer on a conversion coating. */
import type { RouteStep } from "./trial-record.ts";

const isWashPrimer = (step: string) => /(etch|wash|acid)[ -]*primer/i.test(step);
const isConversionCoat = (step: string) => /phosphat/i.test(step);
const isUndone = (step: string) => /strip/i.test(step);

/**
 * The sentence for a route that puts an etch primer on phosphated steel; null for any other.
 * Common practice, and disputed (years of good service are told of too): so it warns and refuses nothing.
 */
export function washPrimerWarning(treatment: { name: string; route: readonly RouteStep[] | null }): string | null {
  let coated = false;
  for (const { name } of treatment.route ?? []) {
    if (isConversionCoat(name) && !isUndone(name)) coated = true;
    else if (isUndone(name)) coated = false;
    else if (coated && isWashPrimer(name))
      return `“${treatment.name}” puts an etch primer on a phosphate coating. Its acid is meant for bare metal and can attack the crystal, a heavy coating most of all: a primer without acid is the plain choice. Common practice, not a rule; write down where the film parts in the tape test.`;
  }
  return null;
}
