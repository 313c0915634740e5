/** Lots are drawn: which numbered coupon gets which treatment, and where it hangs. */
import { InputError, requireWhole } from "../input-error.ts";
import { seededRandom } from "../numeric/random.ts";
import type { CouponPlace, Plan, Treatment } from "./trial-record.ts";

/** What the user decides before the lot is drawn. Lengths in mm, days from putting out. */
export type DrawablePlan = Omit<Plan, "treatments" | "places" | "allocation" | "invented"> & {
  treatments: (Treatment & { coupons: number })[];
  blocks: number;
  /** Coated along with each treatment and kept back. */
  sparesOfEach: number;
  rackColumns: number;
  seed: number;
};

/**
 * Coupons 1 to N: blocks as equal as possible, each treatment in each block as evenly as possible, by lot within a block.
 * Numbers run along the rack, and each block has rack rows of its own. The same draft gives the same plan everywhere.
 */
export function drawPlan(draft: DrawablePlan): Plan {
  requireWhole("blocks", draft.blocks, 1);
  requireWhole("rackColumns", draft.rackColumns, 1);
  requireWhole("sparesOfEach", draft.sparesOfEach);
  const coupons = draft.treatments.reduce((sum, one) => sum + one.coupons, 0);
  if (draft.blocks > coupons)
    throw new InputError("blocks", draft.blocks, `no more blocks than the ${coupons} coupons`);
  const { treatments, blocks: _blocks, rackColumns: _columns, sparesOfEach: _spares, seed, ...said } = draft;
  return {
    ...said,
    treatments: treatments.map(({ coupons: _coupons, ...treatment }) => treatment),
    places: placesOf(draft),
    allocation: { how: "drawn", seed },
    invented: false,
  };
}

function placesOf({ treatments, blocks, rackColumns, sparesOfEach, seed }: DrawablePlan): CouponPlace[] {
  const random = seededRandom(seed);
  const inBlocks = treatmentsByBlock(treatments, random.shuffle([...Array(blocks).keys()]));
  const places: CouponPlace[] = [];
  let rowsBefore = 0;
  for (const [block, names] of inBlocks.entries()) {
    for (const [at, treatment] of random.shuffle(names).entries())
      places.push({
        coupon: String(places.length + 1),
        treatment,
        block: blocks === 1 ? null : String(block + 1),
        rack: { row: rowsBefore + Math.floor(at / rackColumns) + 1, column: (at % rackColumns) + 1 },
        spare: false,
      });
    rowsBefore += Math.ceil(names.length / rackColumns);
  }
  // Spares are numbered last, shuffled: a number must not tell its treatment.
  const spares = treatments.flatMap(({ name }) => Array<string>(sparesOfEach).fill(name));
  for (const treatment of random.shuffle(spares))
    places.push({ coupon: String(places.length + 1), treatment, block: null, rack: null, spare: true });
  return places;
}

/**
 * What does not go up evenly is dealt round the blocks, in the drawn order, from where the last treatment left off:
 * so no block gets two more than another, of one treatment or of all together.
 */
function treatmentsByBlock(treatments: DrawablePlan["treatments"], drawnOrder: readonly number[]): string[][] {
  const blocks: string[][] = drawnOrder.map(() => []);
  let next = 0;
  for (const { name, coupons } of treatments) {
    requireWhole("coupons", coupons, 1);
    for (let dealt = 0; dealt < coupons; dealt++) {
      blocks[drawnOrder[next % drawnOrder.length]!]!.push(name);
      next++;
    }
  }
  return blocks;
}
