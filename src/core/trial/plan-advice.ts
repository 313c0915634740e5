/** What would make a plan tell more: single dips, other blocks, more coupons. */
import { smallestUntiedP } from "../statistics/rearrangement-test.ts";
import type { DrawablePlan } from "./draw-plan.ts";
import { inWords } from "./unit-words.ts";

export type LayoutOfPair = {
  first: string;
  second: string;
  /** Units. */
  n: [number, number];
  /** Smallest p that the layout allows, without ties. */
  pMin: number;
  /** Degrees of freedom of the scatter of measured values; null: no measured values. */
  errorDf: number | null;
  perBlock: [number, number][];
  sameRoute: boolean;
  /** The treatment whose coupons all go through one batch, beside coupons that skip it. */
  oneBatch: string | null;
  eachOneBatch: boolean;
};

/** At or below it a comparison can be "shown". */
const level = 0.05;

/** Proposals as sentences, each once; none when the layout is as good as its coupons allow. Counts of units and blocks. */
export function layoutAdvice(draft: DrawablePlan, pairs: readonly LayoutOfPair[]): string[] {
  return [...new Set([...singleGoes(draft, pairs), ...pairs.flatMap((pair) => otherBlocks(draft, pair))])];
}

/** From so many batches of each on a bath can be shown to differ. */
const fairlyManyBatches = 4;

/** Treatments whose own steps, where they differ from a partner, are done to several coupons in one go. */
function singleGoes({ treatments, batchesOfEach = 1 }: DrawablePlan, pairs: readonly LayoutOfPair[]): string[] {
  if (batchesOfEach >= fairlyManyBatches) return [];
  const routeOf = (name: string) => treatments.find((one) => one.name === name)?.route ?? [];
  const byStep = new Map<string, Set<string>>();
  for (const { first, second } of pairs)
    for (const [own, partner] of [
      [first, second],
      [second, first],
    ] as const)
      for (const step of routeOf(own))
        if (step.treated === "together" && !routeOf(partner).some((its) => its.name === step.name))
          byStep.set(step.name, (byStep.get(step.name) ?? new Set()).add(own));
  const byTreatments = new Map<string, string[]>();
  for (const [step, owners] of byStep) {
    const names = [...owners].map((name) => `"${name}"`).join(", ");
    byTreatments.set(names, [...(byTreatments.get(names) ?? []), `"${step}"`]);
  }
  return [...byTreatments].map(([owners, steps]) => {
    return `Do ${steps.join(", ")} coupon by coupon, in the drawn order: then each coupon of ${owners} is a unit. Where one bath must hold several at once: several batches, with 4 or more of each treatment, in the drawn order.`;
  });
}

function otherBlocks(draft: DrawablePlan, { pMin, errorDf, perBlock, n, first, second }: LayoutOfPair): string[] {
  // Measured values are judged by the scatter of the whole trial, in blocks of ones too.
  if (errorDf !== null) return [];
  const each = Math.min(...n);
  if (each <= 1) return oneCoupon(draft, { first, second });
  const onesOnly = draft.blocks > 1 && perBlock.every(([one, other]) => one <= 1 && other <= 1);
  if (onesOnly && pMin <= level && draft.blocks < 7)
    return [
      "One of each per block: looks a week apart tie a block in a quarter to a third of such pairs, so plan 7 or 8 blocks, or blocks of two.",
    ];
  if (pMin <= level) return [];
  const better = betterBlocks(each);
  const ofOnes = onesOnly ? " One of each per block needs 6 blocks, better 7 or 8." : "";
  return better
    ? [`With ${each} of each, ${better} could show a difference; this layout cannot.${ofOnes}`]
    : [
        `With ${each} of each nothing can be shown: take 4 or more of each without blocks, or 3 blocks of two.${ofOnes}`,
      ];
}

/** Numbers of coupons in the draft, since a batch is mended by single goes and not by more coupons. */
function oneCoupon({ treatments }: DrawablePlan, { first, second }: { first: string; second: string }): string[] {
  return treatments
    .filter(({ name, coupons }) => (name === first || name === second) && coupons === 1)
    .map(({ name }) => `One coupon of "${name}" says nothing about the treatment: take 4 or more of each.`);
}

/** The most blocks of equal size, with two or more of each in a block, that still let a difference be shown. */
function betterBlocks(each: number): string | null {
  for (let blocks = Math.floor(each / 2); blocks >= 1; blocks--) {
    if (each % blocks !== 0) continue;
    const inBlock = each / blocks;
    if (smallestUntiedP(Array.from({ length: blocks }, () => [inBlock, inBlock] as const)) > level) continue;
    return blocks === 1 ? "a draw without blocks" : `${blocks} blocks of ${inWords(inBlock)}`;
  }
  return null;
}
