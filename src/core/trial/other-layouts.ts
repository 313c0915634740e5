/** Other ways to lay out the same coupons, to be simulated beside the plan. */
import type { DrawablePlan } from "./draw-plan.ts";

export type OtherLayout = { blocks: number; inEachBlock: number };

/** No blocks, and blocks of three, two and one of each treatment, as far as `each` coupons go up evenly. */
export function layoutsOf(each: number): OtherLayout[] {
  const perBlock = [each, 3, 2, 1].filter((inBlock, at, all) => each % inBlock === 0 && all.indexOf(inBlock) === at);
  return perBlock
    .filter((inBlock) => inBlock <= each)
    .map((inEachBlock) => ({ blocks: each / inEachBlock, inEachBlock }));
}

/** The draft with these blocks; a draft of incomplete blocks becomes one of complete ones. */
export function withLayout(draft: DrawablePlan, { blocks }: OtherLayout): DrawablePlan {
  const { blockSize: _incomplete, ...complete } = draft;
  return { ...complete, blocks };
}
