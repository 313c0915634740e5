/** Lots are drawn: which numbered coupon gets which treatment, in which batch, and where it hangs. */
import { InputError, requireWhole } from "../input-error.ts";
import { type SeededRandom, seededRandom } from "../numeric/random.ts";
import type { CouponPlace, DestructiveTest } from "./coupon-place.ts";
import { requireOwnToStrip } from "./coupons-of-question.ts";
import { responseKind, responseName } from "./declared-question.ts";
import { withBatches } from "./draw-batches.ts";
import { balancedBlocks } from "./incomplete-blocks.ts";
import { noTreatmentAllOnOneEdge } from "./spread-rule.ts";
import type { Plan, SpreadRule, Treatment } from "./trial-record.ts";

/** What the user decides before the lot is drawn. Lengths in mm, days from putting out. */
export type DrawablePlan = Omit<Plan, "treatments" | "places" | "allocation" | "invented"> & {
  /** `coupons`: those that are put out, spares and those of a destructive test left out. */
  treatments: (Treatment & { coupons: number })[];
  blocks: number;
  /** So many different treatments in each block, balanced over pairs; absent: every block holds all. */
  blockSize?: number;
  /** Batches of each treatment, or of those that share one, for the steps done together; absent: one go for all. */
  batchesOfEach?: number;
  /** The draw is repeated until it fulfils this. */
  spread?: SpreadRule;
  /** Of each treatment but the witnesses, coated along and used up by a test before the others are put out. */
  testCoupons?: { test: DestructiveTest; ofEach: number }[];
  /** Coated along with each treatment and kept back. */
  sparesOfEach: number;
  rackColumns: number;
  seed: number;
};

/** Beyond so many draws that failed, the rule cannot be fulfilled on this rack. */
const mostDraws = 2000;

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
  const { question, questions, couponSize, edgeBandMm, rustThresholdPercent, lookDays, seed, spread } = draft;
  requireOwnToStrip(questions, draft.testCoupons ?? []);
  return {
    ...{ question, questions, couponSize, edgeBandMm, rustThresholdPercent, lookDays },
    treatments: draft.treatments.map(({ coupons: _coupons, ...treatment }) => treatment),
    places: drawnPlaces(draft),
    allocation: { how: "drawn", seed, ...(spread === undefined ? {} : { spread }) },
    invented: false,
  };
}

function drawnPlaces(draft: DrawablePlan): CouponPlace[] {
  const random = seededRandom(draft.seed);
  const hung = spreadOut(draft, () => hungPlaces(draft, random));
  const withTests = numberedAmong(hung, keptPlaces(draft), random);
  // Spares are numbered last, shuffled: a number must not tell its treatment.
  const spares = draft.treatments.flatMap(({ name }) => Array<string>(draft.sparesOfEach).fill(name));
  const all = [
    ...withTests,
    ...random.shuffle(spares).map((treatment, at): CouponPlace => {
      return { coupon: String(withTests.length + at + 1), treatment, block: null, rack: null, spare: true };
    }),
  ];
  const { treatments, batchesOfEach = 1 } = draft;
  return batchesOfEach === 1 ? all : withBatches(all, { treatments, batchesOfEach }, random);
}

function spreadOut(draft: DrawablePlan, draw: () => CouponPlace[]): CouponPlace[] {
  if (draft.spread === undefined) return draw();
  for (let tried = 0; tried < mostDraws; tried++) {
    const places = draw();
    const racked = places.flatMap(({ treatment, rack }) => (rack ? [{ treatment, ...rack }] : []));
    if (noTreatmentAllOnOneEdge(racked)) return places;
  }
  throw new InputError(
    "spread",
    draft.spread,
    "a rule that this rack can fulfil, or another number of coupons in a row",
  );
}

function hungPlaces(draft: DrawablePlan, random: SeededRandom): CouponPlace[] {
  const { treatments, blocks, rackColumns } = draft;
  const inBlocks =
    draft.blockSize === undefined
      ? treatmentsByBlock(treatments, random.shuffle([...Array(blocks).keys()]))
      : incompleteBlocks(draft, draft.blockSize, random);
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

/** The treatments by lot into the places of the balanced design, its blocks in random order; witnesses dealt round them. */
function incompleteBlocks(draft: DrawablePlan, blockSize: number, random: SeededRandom): string[][] {
  const exact = draft.questions.find((declared) => responseKind(declared) !== "continuous");
  if (exact)
    throw new InputError(
      "blockSize",
      blockSize,
      `blocks that hold every treatment: "${responseName(exact)}" is no measured value`,
    );
  const compared = draft.treatments.filter((one) => one.role !== "witness");
  const design = balancedBlocks(compared.length, blockSize);
  if (draft.blocks % design.length !== 0)
    throw new InputError("blocks", draft.blocks, `${design.length} blocks of ${blockSize}, or a multiple`);
  const times = draft.blocks / design.length;
  const each = (design.length * times * blockSize) / compared.length;
  const uneven = compared.find((one) => one.coupons !== each);
  if (uneven)
    throw new InputError("coupons", uneven.coupons, `${each} of each treatment in ${draft.blocks} such blocks`);
  const names = random.shuffle(compared.map((one) => one.name));
  const blocks = random.shuffle(Array.from({ length: times }, () => design).flat());
  const witnesses = treatmentsByBlock(
    draft.treatments.filter((one) => one.role === "witness"),
    random.shuffle([...blocks.keys()]),
  );
  return blocks.map((block, at) => [...block.map((one) => names[one]!), ...witnesses[at]!]);
}

function keptPlaces({ treatments, testCoupons = [] }: DrawablePlan): CouponPlace[] {
  return testCoupons.flatMap(({ test, ofEach }) => {
    requireWhole("ofEach", ofEach, 1);
    const compared = treatments.filter((one) => one.role !== "witness");
    return compared.flatMap(({ name }) =>
      Array.from({ length: ofEach }, (): CouponPlace => {
        return { coupon: "", treatment: name, block: null, rack: null, spare: false, keptFor: test };
      }),
    );
  });
}

/** Coupons kept for a test get their numbers by lot among the others, whose numbers still run along the rack. */
function numberedAmong(
  hung: readonly CouponPlace[],
  kept: readonly CouponPlace[],
  random: SeededRandom,
): CouponPlace[] {
  if (kept.length === 0) return [...hung];
  const turns = random.shuffle([...hung.map(() => "hung"), ...kept.map(() => "kept")]);
  const shuffled = random.shuffle(kept);
  let [nextHung, nextKept] = [0, 0];
  return turns.map((turn, at) => ({
    ...(turn === "hung" ? hung[nextHung++]! : shuffled[nextKept++]!),
    coupon: String(at + 1),
  }));
}
