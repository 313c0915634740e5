/** Blocks too small for every treatment, balanced over pairs. */
import { InputError, requireFinite, requireList } from "../input-error.ts";
import { fSf } from "../numeric/f-distribution.ts";
import { mean, requireScatter, sum } from "./moments.ts";

export type BlockObservation = { block: string | number; treatment: string | number; value: number };
type Design = {
  treatments: (string | number)[];
  blocks: BlockObservation[][];
  replications: number;
  blockSize: number;
  lambda: number;
};

/**
 * Analysis of balanced incomplete blocks, within the blocks.
 *
 * Method   means.balancedIncompleteBlock
 * Formula  Q = treatment total - Σ of the means of its blocks; effect = k Q / (λ t); adjusted sum of squares = k Σ Q² / (λ t)
 * Units    any; effects sum to 0, treatments in ascending order
 * Source   Yates 1936, intrablock analysis
 * Status   computed
 * Holds    when a treatment acts alike in all blocks; blocks are not adjusted for treatments
 * Refuses  any imbalance: block sizes, replications, or how often two treatments meet; no scatter left; no error df
 */
export function balancedIncompleteBlock({ observations }: { observations: BlockObservation[] }) {
  const { treatments, blocks, replications, blockSize, lambda } = designOf(observations);
  const origin = observations[0]!.value;
  const t = treatments.length;
  const blockMeans = blocks.map((block) => mean(block.map(({ value }) => value - origin)));
  const totals = treatments.map((treatment) =>
    sum(
      blocks.flatMap((block, at) =>
        block.filter((one) => one.treatment === treatment).map(({ value }) => value - origin - blockMeans[at]!),
      ),
    ),
  );
  const effects = totals.map((total) => (blockSize * total) / (lambda * t));
  const effectOf = new Map(treatments.map((treatment, at) => [treatment, effects[at]!]));
  const ssError = sum(
    blocks.map((block, at) => {
      const expected = mean(block.map(({ treatment }) => effectOf.get(treatment)!));
      return sum(
        block.map(({ treatment, value }) => {
          const fitted = blockMeans[at]! + effectOf.get(treatment)! - expected;
          return (value - origin - fitted) ** 2;
        }),
      );
    }),
  );
  const dfError = observations.length - t - blocks.length + 1;
  if (dfError < 1) throw new InputError("observations", observations, "a design that leaves degrees of freedom");
  const values = observations.map(({ value }) => value);
  requireScatter("observations", ssError, values, "values that scatter beside blocks and treatments");
  const ssTreatmentAdjusted = (blockSize * sum(totals.map((total) => total * total))) / (lambda * t);
  const grand = mean(blockMeans);
  const msError = ssError / dfError;
  const f = ssTreatmentAdjusted / (t - 1) / msError;
  return {
    ...{ replications, blockSize, lambda },
    efficiency: (lambda * t) / (blockSize * replications),
    ssTreatmentAdjusted,
    ssBlock: blockSize * sum(blockMeans.map((one) => (one - grand) ** 2)),
    ssError,
    dfTreatment: t - 1,
    dfBlock: blocks.length - 1,
    dfError,
    f,
    p: fSf(f, t - 1, dfError),
    effects,
    standardErrorDifference: Math.sqrt((2 * blockSize * msError) / (lambda * t)),
  };
}

function designOf(observations: BlockObservation[]): Design {
  requireList("observations", observations, 4);
  for (const [at, one] of observations.entries()) {
    requireLabel(`observations[${at}].block`, one?.block);
    requireLabel(`observations[${at}].treatment`, one.treatment);
    requireFinite(`observations[${at}].value`, one.value);
  }
  const names = [...new Set(observations.map(({ block }) => block))];
  const blocks = names.map((name) => observations.filter(({ block }) => block === name));
  const treatments = [...new Set(observations.map(({ treatment }) => treatment))].sort(ascending);
  const blocksOf = treatments.map((treatment) =>
    blocks.filter((block) => block.some((one) => one.treatment === treatment)),
  );
  const blockSize = only(
    "every block as large",
    blocks.map((block) => block.length),
    observations,
  );
  const replications = only(
    "every treatment in as many blocks",
    blocksOf.map((list) => list.length),
    observations,
  );
  if (blocks.some((block) => new Set(block.map(({ treatment }) => treatment)).size !== block.length))
    throw new InputError("observations", observations, "each treatment at most once in a block");
  const meetings = treatments.flatMap((_, first) =>
    treatments
      .slice(first + 1)
      .map((_, offset) => blocksOf[first]!.filter((block) => blocksOf[first + 1 + offset]!.includes(block)).length),
  );
  if (treatments.length < 2 || blocks.length < 2)
    throw new InputError("observations", observations, "at least two treatments and two blocks");
  const lambda = only("every two treatments together in as many blocks", meetings, observations);
  if (lambda === 0) throw new InputError("observations", observations, "blocks in which treatments meet");
  return { treatments, blocks, replications, blockSize, lambda };
}

function requireLabel(argument: string, label: unknown): void {
  if (typeof label !== "string" && typeof label !== "number")
    throw new InputError(argument, label, "a name or a number");
}

function ascending(a: string | number, b: string | number): number {
  return typeof a === "number" && typeof b === "number" ? a - b : String(a) < String(b) ? -1 : 1;
}

/** The one value that all counts share. */
function only(balance: string, counts: readonly number[], observations: BlockObservation[]): number {
  if (counts.some((count) => count !== counts[0])) throw new InputError("observations", observations, balance);
  return counts[0]!;
}
