/** One treatment given to whole batches, another to coupons within a batch. */
import { InputError, requireList } from "../input-error.ts";
import { fSf } from "../numeric/f-distribution.ts";
import { mean, requireScatter, sum } from "./moments.ts";
import { requireTable } from "./table-of-values.ts";

/**
 * Analysis of variance of a balanced split plot.
 *
 * Method   means.splitPlotAnova
 * Formula  block + whole-plot treatment + whole-plot error (block x whole) + sub-plot treatment + interaction + sub-plot error;
 *          the whole-plot treatment is tested against the whole-plot error, the others against the sub-plot error
 * Units    any; values[block][whole][sub]
 * Source   Yates 1935
 * Status   computed
 * Holds    when the whole-plot treatment was carried out once per block: its n is the number of blocks, not of coupons
 * Refuses  one block; one treatment of either kind; a missing value; no scatter in either error
 */
export function splitPlotAnova({ values }: { values: number[][][] }) {
  const { blocks, wholes, subs } = requireBalanced(values);
  const origin = values[0]![0]![0]!;
  const at = (block: number, whole: number, sub: number) => values[block]![whole]![sub]! - origin;
  const means = meansOf(at, { blocks, wholes, subs });
  const over = (count: number) => [...Array(count).keys()];
  const squares = (list: number[]) => sum(list.map((one) => one * one));
  const ssBlock = wholes * subs * squares(means.block.map((one) => one - means.grand));
  const ssWhole = blocks * subs * squares(means.whole.map((one) => one - means.grand));
  const ssSub = blocks * wholes * squares(means.sub.map((one) => one - means.grand));
  const wholeErrors = over(blocks).flatMap((b) =>
    over(wholes).map((w) => means.plot[b]![w]! - means.block[b]! - means.whole[w]! + means.grand),
  );
  const ssWholeError = subs * squares(wholeErrors);
  const interactions = over(wholes).flatMap((w) =>
    over(subs).map((s) => means.cell[w]![s]! - means.whole[w]! - means.sub[s]! + means.grand),
  );
  const ssInteraction = blocks * squares(interactions);
  const subErrors = over(blocks).flatMap((b) =>
    over(wholes).flatMap((w) =>
      over(subs).map((s) => at(b, w, s) - means.plot[b]![w]! - means.cell[w]![s]! + means.whole[w]!),
    ),
  );
  const ssSubError = squares(subErrors);
  requireScatter("values", ssWholeError, values.flat(2), "batches that scatter beside blocks and treatments");
  requireScatter("values", ssSubError, values.flat(2), "coupons that scatter beside batches and treatments");
  const df = degreesOfFreedom({ blocks, wholes, subs });
  const fWhole = ssWhole / df.dfWhole / (ssWholeError / df.dfWholeError);
  const fSub = ssSub / df.dfSub / (ssSubError / df.dfSubError);
  const fInteraction = ssInteraction / df.dfInteraction / (ssSubError / df.dfSubError);
  return {
    ...{ ssBlock, ssWhole, ssWholeError, ssSub, ssInteraction, ssSubError },
    ...df,
    fWhole,
    pWhole: fSf(fWhole, df.dfWhole, df.dfWholeError),
    fSub,
    pSub: fSf(fSub, df.dfSub, df.dfSubError),
    fInteraction,
    pInteraction: fSf(fInteraction, df.dfInteraction, df.dfSubError),
  };
}

type Sizes = { blocks: number; wholes: number; subs: number };

function requireBalanced(values: number[][][]): Sizes {
  requireList("values", values, 2);
  for (const [at, block] of values.entries()) {
    requireTable(`values[${at}]`, block, { rows: 2, columns: 2 });
    if (block.length !== values[0]!.length || block[0]!.length !== values[0]![0]!.length)
      throw new InputError(`values[${at}]`, block, "as many treatments as in the first block");
  }
  return { blocks: values.length, wholes: values[0]!.length, subs: values[0]![0]!.length };
}

function degreesOfFreedom({ blocks, wholes, subs }: Sizes) {
  return {
    dfBlock: blocks - 1,
    dfWhole: wholes - 1,
    dfWholeError: (blocks - 1) * (wholes - 1),
    dfSub: subs - 1,
    dfInteraction: (wholes - 1) * (subs - 1),
    dfSubError: wholes * (blocks - 1) * (subs - 1),
  };
}

function meansOf(at: (block: number, whole: number, sub: number) => number, { blocks, wholes, subs }: Sizes) {
  const list = (count: number, one: (index: number) => number) =>
    Array.from({ length: count }, (_, index) => one(index));
  const plot = list(blocks, () => 0).map((_, b) => list(wholes, (w) => mean(list(subs, (s) => at(b, w, s)))));
  const cell = list(wholes, () => 0).map((_, w) => list(subs, (s) => mean(list(blocks, (b) => at(b, w, s)))));
  return {
    plot,
    cell,
    block: plot.map(mean),
    whole: cell.map(mean),
    sub: list(subs, (s) => mean(cell.map((row) => row[s]!))),
    grand: mean(plot.flat()),
  };
}
