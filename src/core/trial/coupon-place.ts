/** Where a numbered coupon stands in a trial: its treatment, block, batch and place on the rack. */

/** Where a numbered coupon stands. Drawn by lot from the plan's seed, or read from a table. */
export type CouponPlace = {
  coupon: string;
  treatment: string;
  block: string | null;
  rack: { row: number; column: number } | null;
  /** A spare is coated along with its treatment and not put out unless another is lost before that. */
  spare: boolean;
  /** Which of the planned batches carries it through the steps done together that not all treatments have; absent: one go for all. */
  batch?: string;
  /** Coated along and never hung: it is used up by this test before the others are put out. */
  keptFor?: DestructiveTest;
};

/** Tests that use a coupon up. Before exposure they need coupons of their own, and their n is theirs. */
export const destructiveTests = ["tape test", "weighing by stripping"] as const;
export type DestructiveTest = (typeof destructiveTests)[number];
