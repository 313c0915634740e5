/**
 * Random rearrangements within blocks, as a share of which a p is given where there are too many to count.
 *
 * Units    scores less their block's mean
 * Source   shuffling from the end (Fisher and Yates; Durstenfeld 1964)
 * Status   memory
 */
import { seededRandom } from "../numeric/random.ts";
import { allocationCount, type DealtBlock, eachAllocation } from "./allocations.ts";

/** A block with no more allocations is written down whole, and one of its rows is picked. */
const writtenDown = 720;
/** Random words are fetched for so many draws at once. */
const fetchedDraws = 16;
/** One random word as a fraction from 0 up to 1. */
const perWord = 2 ** -32;

/**
 * Goes through `draws` random allocations. `visit` gets the sum of the scores of each group, good only during the call, and says
 * whether to go on.
 */
export function drawAllocations(
  blocks: readonly DealtBlock[],
  { draws, seed }: { draws: number; seed: number },
  visit: (sums: Float64Array) => boolean,
): void {
  const small = (block: DealtBlock) => allocationCount(block.groupSizes) <= writtenDown;
  const listed = blocks.filter(small).map(listedBlock);
  const shuffled = blocks.filter((block) => !small(block)).map(shuffledBlock);
  const sums = new Float64Array(blocks[0]?.groupSizes.length ?? 0);
  const needed = listed.length + shuffled.reduce((sum, block) => sum + block.needed, 0);
  const words = new Uint32Array(needed * fetchedDraws);
  const random = seededRandom(seed);
  let next = words.length;
  for (let draw = 0; draw < draws; draw++) {
    if (next === words.length) {
      random.words(words);
      next = 0;
    }
    sums.fill(0);
    for (let at = 0; at < listed.length; at++) addPicked(listed[at]!, sums, words[next++]!);
    for (let at = 0; at < shuffled.length; at++) {
      addShuffled(shuffled[at]!, sums, words, next);
      next += shuffled[at]!.needed;
    }
    if (!visit(sums)) return;
  }
}

/** Row after row the sums of all groups. A row that stands for several allocations is there so many times. */
type ListedBlock = { rows: Float64Array; count: number };

function listedBlock(block: DealtBlock): ListedBlock {
  const rows: number[] = [];
  eachAllocation([block], (sums, ways) => {
    for (let way = 0; way < ways; way++) rows.push(...sums);
  });
  return { rows: Float64Array.from(rows), count: rows.length / block.groupSizes.length };
}

function addPicked({ rows, count }: ListedBlock, sums: Float64Array, word: number): void {
  const from = ((word * perWord * count) >>> 0) * sums.length;
  for (let group = 0; group < sums.length; group++) sums[group]! += rows[from + group]!;
}

/**
 * The scores change places, the groups keep theirs: one stretch after the other, the largest group first. It gets what is left, so its
 * own places need no drawing. `needed`: random words for one shuffle.
 */
type ShuffledBlock = { scores: Float64Array; total: number; groups: Int32Array; sizes: Int32Array; needed: number };

function shuffledBlock({ scores, groupSizes }: DealtBlock): ShuffledBlock {
  const groups = [...groupSizes.keys()].sort((a, b) => groupSizes[b]! - groupSizes[a]!);
  return {
    scores: Float64Array.from(scores).sort(),
    total: scores.reduce((sum, score) => sum + score, 0),
    groups: Int32Array.from(groups),
    sizes: Int32Array.from(groups, (group) => groupSizes[group]!),
    needed: scores.length - groupSizes[groups[0]!]!,
  };
}

function addShuffled(block: ShuffledBlock, sums: Float64Array, words: Uint32Array, firstWord: number): void {
  const { scores, groups, sizes } = block;
  let word = firstWord;
  let rest = block.total;
  let left = scores.length;
  for (let stretch = groups.length - 1; stretch > 0; stretch--) {
    let sum = 0;
    for (const end = left - sizes[stretch]!; left > end; left--) {
      const from = (words[word++]! * (left * perWord)) | 0;
      const picked = scores[from]!;
      scores[from] = scores[left - 1]!;
      scores[left - 1] = picked;
      sum += picked;
    }
    sums[groups[stretch]!]! += sum;
    rest -= sum;
  }
  sums[groups[0]!]! += rest;
}
