import { describe, expect, test } from "vitest";
import { balancedIncompleteBlock } from "../statistics/balanced-incomplete-block.ts";
import { balancedBlocks } from "./incomplete-blocks.ts";

describe("blocks too small for every treatment", () => {
  test.each([
    // treatments  block  blocks  source
    [3, 2, 3, "every pair once"],
    [4, 2, 6, "every pair once"],
    [4, 3, 4, "each leaves one out"],
    [5, 2, 10, "every pair once"],
    [6, 3, 10, "Fisher and Yates, table of such designs"],
    [7, 3, 7, "the seven-point plane"],
    [7, 4, 7, "what the seven-point plane leaves out"],
    [8, 4, 14, "Fisher and Yates, table of such designs"],
    [9, 3, 12, "the affine plane of order 3"],
  ])("%d treatments in blocks of %d need %d blocks (%s)", (treatments, size, blocks) => {
    const design = balancedBlocks(treatments, size);
    expect(design).toHaveLength(blocks);
    const observations = design.flatMap((block, at) =>
      block.map((treatment) => ({ block: at, treatment, value: ((at + 1) * (treatment + 2) ** 2) % 11 })),
    );
    // Refuses any imbalance by itself; 3 blocks of 2 leave it a single degree of freedom.
    const { replications, lambda } = balancedIncompleteBlock({ observations });
    expect(replications).toBe((blocks * size) / treatments);
    expect(lambda).toBe((replications * (size - 1)) / (treatments - 1));
  });

  test.each([
    [3, 3, /^blockSize is 3; expected fewer than the 3 treatments/],
    [2, 2, /^treatments is 2/],
    [30, 2, /^blockSize is 2; expected a size that balances 30 treatments/],
  ])("%d treatments in blocks of %d are refused", (treatments, size, message) =>
    expect(() => balancedBlocks(treatments, size)).toThrow(message),
  );
});
