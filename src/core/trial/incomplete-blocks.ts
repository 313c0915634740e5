/** Blocks too small for every treatment, in which every two treatments meet equally often. */
import { InputError, requireWhole } from "../input-error.ts";

/** More blocks than this are no small trial. */
const mostBlocks = 60;

/**
 * Treatments 0 to `treatments` - 1 in the fewest blocks of `blockSize` found: one or two starting blocks turned round in a circle, with or
 * without one treatment at its centre; else every choice there is.
 */
export function balancedBlocks(treatments: number, blockSize: number): number[][] {
  requireWhole("treatments", treatments, 3);
  requireWhole("blockSize", blockSize, 2);
  if (blockSize >= treatments)
    throw new InputError(
      "blockSize",
      blockSize,
      `fewer than the ${treatments} treatments, or blocks that hold them all`,
    );
  const circles = [treatments, treatments - 1].flatMap((around) =>
    choices([...Array(treatments).keys()], blockSize)
      .filter((start) => start.includes(0))
      .map((start) => turned(start, around)),
  );
  const two = circles.flatMap((one, at) => circles.slice(at + 1).map((other) => [...one, ...other]));
  const all = choices([...Array(treatments).keys()], blockSize);
  const [fewest] = [...circles, ...two, all]
    .filter((blocks) => blocks.length <= mostBlocks && isBalanced(blocks, treatments))
    .sort((a, b) => a.length - b.length);
  if (!fewest)
    throw new InputError(
      "blockSize",
      blockSize,
      `a size that balances ${treatments} treatments in ${mostBlocks} blocks`,
    );
  return fewest;
}

function choices(from: readonly number[], size: number): number[][] {
  if (size === 0) return [[]];
  return from.flatMap((first, at) => choices(from.slice(at + 1), size - 1).map((rest) => [first, ...rest]));
}

/** A treatment numbered `around` stands at the centre and keeps its place. Each block once, also when a turn repeats it. */
function turned(start: readonly number[], around: number): number[][] {
  const blocks = new Map<string, number[]>();
  for (let by = 0; by < around; by++) {
    const block = start.map((one) => (one >= around ? one : (one + by) % around)).sort((a, b) => a - b);
    blocks.set(block.join(), block);
  }
  return [...blocks.values()];
}

function isBalanced(blocks: readonly (readonly number[])[], treatments: number): boolean {
  const meetings = Array.from({ length: treatments }, () => Array.from({ length: treatments }, () => 0));
  for (const block of blocks) for (const a of block) for (const b of block) meetings[a]![b]! += 1;
  const apart = new Set(meetings.flatMap((row, a) => row.filter((_, b) => a !== b)));
  const replications = new Set(meetings.map((row, a) => row[a]!));
  return apart.size === 1 && !apart.has(0) && replications.size === 1;
}
