/** Weighings of coupons, as the balance showed them, and what they say: coating or oil per area, or why they say nothing. */
import { couponArea } from "../climate/coupon-area.ts";
import { coatingMassBand, coatingMassFromGain } from "../coating/mass-from-gain.ts";
import { weighStripWeigh } from "../coating/weigh-strip-weigh.ts";
import {
  balanceFitness,
  differenceUncertaintyGM2,
  goodCoatGM2,
  lightCoatGM2,
} from "../coating/weighing-uncertainty.ts";
import { InputError } from "../input-error.ts";
import type { Observed, TrialRecord, Weighing } from "./trial-record.ts";
import { statesOf, type WeighedAs, type WeighedState, weighedUnit } from "./weighed-as.ts";
import { requireMayBeStripped } from "./weighed-coupons.ts";

/** What the weighings of one coupon say. `from`: the weighing that completed it. */
export type WeighedResult = { coupon: string; sentence: string } & (
  | { standing: "known"; valueGM2: number; from: Observed<Weighing> }
  | { standing: "refused" }
  | { standing: "waiting"; next: WeighedState }
);

/** Whole surface of one coupon of the plan; a hanging hole is not taken off. cm² */
export const couponAreaCm2 = ({ plan }: TrialRecord): number =>
  couponArea({ ...plan.couponSize, holeDiameterMm: 0 }) / 100;

/** Why this balance is of no use on coupons of this size, weighed so many together; null: it will do. mg and cm² of one coupon. */
export function balanceRefusal(weighing: { balanceMg: number; areaCm2: number; coupons: number }): string | null {
  const { useful, couponsTogether } = balanceFitness(weighing);
  if (useful) return null;
  const size = weighing.coupons === 1 ? "a coupon" : `${weighing.coupons} coupons`;
  return `This balance cannot tell ${lightCoatGM2} from ${goodCoatGM2} ${weighedUnit} on ${size} of this size: use a bigger one, or hang ${couponsTogether} together.`;
}

/** Of each coupon that was weighed for it, in the order of the rack. */
export function weighedResults(record: TrialRecord, as: WeighedAs): WeighedResult[] {
  const wanted = statesOf[as];
  return record.plan.places.flatMap(({ coupon }) => {
    const own = record.weighings.filter(({ body }) => body.coupon === coupon && wanted.includes(body.state));
    if (own.length === 0) return [];
    const next = wanted.find((state) => !own.some(({ body }) => body.state === state));
    if (next) return [{ coupon, standing: "waiting", next, sentence: `To be weighed ${next}.` }];
    return [resultOf(record, { coupon, as, own })];
  });
}

type Weighed = { coupon: string; as: WeighedAs; own: Observed<Weighing>[] };
type Said = { valueGM2: number; said: string } | { refused: string };

function resultOf(record: TrialRecord, { coupon, as, own }: Weighed): WeighedResult {
  const from = own.at(-1)!;
  const coupons = 1 + from.body.with.length;
  const one = couponAreaCm2(record);
  const balanceMg = Math.max(...own.map(({ body }) => body.balanceMg));
  const areaCm2 = coupons * one;
  const unsureGM2 = 1.96 * differenceUncertaintyGM2({ balanceMg, areaCm2 });
  const text = (gM2: number) => gM2.toFixed(unsureGM2 >= 1 ? 0 : unsureGM2 >= 0.1 ? 1 : 2);
  const massG = (state: WeighedState) => own.find(({ body }) => body.state === state)!.body.massG;
  const refusal = as === "gain" || as === "stripping" ? balanceRefusal({ balanceMg, areaCm2: one, coupons }) : null;
  const weighed = { massG, areaCm2, text };
  const said: Said =
    refusal !== null
      ? { refused: refusal }
      : as === "gain"
        ? unlessImpossible(() => gained(weighed))
        : as === "stripping"
          ? unlessImpossible(() => stripped(weighed, meanBlankLossMg(record) * coupons))
          : oilOf(weighed, statesOf[as][1]!, unsureGM2);
  if ("refused" in said) return { coupon, standing: "refused", sentence: said.refused };
  const sentence = `${said.said}, ± ${text(unsureGM2)} from the balance.`;
  return { coupon, standing: "known", valueGM2: said.valueGM2, from, sentence };
}

/** Masses by state, g; the area they lie on, cm²; a number with as many digits as the balance bears. */
type WeighedMasses = { massG: (state: WeighedState) => number; areaCm2: number; text: (gM2: number) => string };

/** What the methods refuse (a coupon lighter than before) is said of this coupon; the others still count. */
function unlessImpossible(said: () => Said): Said {
  try {
    return said();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { refused: `These weighings cannot be: ${error.message}.` };
  }
}

function gained({ massG, areaCm2, text }: WeighedMasses): Said {
  const { gainGM2 } = coatingMassFromGain({ massBeforeG: massG("bare"), massAfterG: massG("coated"), areaCm2 });
  const { atLeastGM2, atMostGM2 } = coatingMassBand(gainGM2);
  return {
    valueGM2: atLeastGM2,
    said: `Coating at least ${text(atLeastGM2)} ${weighedUnit}, up to ${text(atMostGM2)} if the bath took much steel`,
  };
}

function stripped({ massG, areaCm2, text }: WeighedMasses, blankLossMg: number): Said {
  const masses = { massBeforeG: massG("bare"), massCoatedG: massG("coated"), massStrippedG: massG("stripped") };
  const { coatingMassGM2 } = weighStripWeigh({ ...masses, areaCm2, blankLossMg });
  const blank = blankLossMg === 0 ? ", no bare blank was stripped beside it" : "";
  return { valueGM2: coatingMassGM2, said: `Coating ${text(coatingMassGM2)} ${weighedUnit}${blank}` };
}

function oilOf({ massG, areaCm2, text }: WeighedMasses, oiled: WeighedState, unsureGM2: number): Said {
  const oilGM2 = ((massG(oiled) - massG("coated")) * 10_000) / areaCm2;
  if (oilGM2 < unsureGM2)
    return { refused: `Less oil than this balance can see, ${text(unsureGM2)} ${weighedUnit} on this area.` };
  return { valueGM2: oilGM2, said: `Oil ${text(oilGM2)} ${weighedUnit}` };
}

/** Bare coupons that went through the stripper alone: what it takes off steel. mg of one coupon; 0 without blanks. */
function meanBlankLossMg({ weighings, plan }: TrialRecord): number {
  const losses = plan.places.flatMap(({ coupon }) => {
    const own = weighings.flatMap(({ body }) => (body.coupon === coupon ? [body] : []));
    const mass = (state: WeighedState) => own.find((one) => one.state === state)?.massG;
    const bareG = mass("bare");
    const strippedG = mass("stripped");
    if (bareG === undefined || strippedG === undefined || mass("coated") !== undefined) return [];
    return [((bareG - strippedG) * 1000) / (1 + own[0]!.with.length)];
  });
  return losses.length === 0 ? 0 : losses.reduce((all, one) => all + one, 0) / losses.length;
}

/** Refuses coupons that are not there or were weighed otherwise before, and a second weighing in one state. mg and g. */
export function requireWeighing(record: TrialRecord, body: Weighing): void {
  requireMayBeStripped(record, body);
  const treatmentOf = (coupon: string) => record.plan.places.find((place) => place.coupon === coupon)?.treatment;
  if (treatmentOf(body.coupon) === undefined)
    throw new InputError("coupon", body.coupon, "the number of a coupon of this trial");
  for (const [at, other] of body.with.entries()) {
    if (other === body.coupon || treatmentOf(other) !== treatmentOf(body.coupon))
      throw new InputError(`with[${at}]`, other, `another coupon of the treatment that ${body.coupon} has`);
    const alone = record.weighings.some((one) => one.body !== body && one.body.coupon === other);
    if (alone) throw new InputError(`with[${at}]`, other, "a coupon that was not weighed by itself");
  }
  // Weighed on another device as well, in ignorance of this one: kept beside it, and asked about.
  if (record.twice.some(({ differs }) => differs.body === body)) return;
  const others = record.weighings.filter((one) => one.body !== body && one.body.coupon === body.coupon);
  if (others.some((one) => one.body.state === body.state))
    throw new InputError(
      "state",
      body.state,
      `a state in which coupon ${body.coupon} was not weighed yet; correct that one`,
    );
  const before = others[0]?.body.with;
  if (before && [...before].sort().join() !== [...body.with].sort().join())
    throw new InputError(
      "with",
      body.with.length === 0 ? "nobody" : body.with,
      before.length === 0 ? "nobody, as it was weighed before" : `${before.join(", ")}, as it was weighed before`,
    );
}

/**
 * Who is weighed with whom: as before, and where nobody was weighed yet at least so many of one treatment at a time, as
 * evenly as it goes: one left over would be judged by a balance that is too coarse for it. `asked`: numbers of the coupons
 * to weigh; absent: all. In the order of their numbers, which the lot drew: it tells no treatment.
 */
export function weighingGroups(
  { plan, weighings }: TrialRecord,
  together: number,
  asked: ReadonlySet<string> = new Set(plan.places.map(({ coupon }) => coupon)),
): string[][] {
  const before = new Map(weighings.map(({ body }) => [body.coupon, [body.coupon, ...body.with]]));
  const grouped = new Set([...before.values()].flat());
  const groups = [...before.values()];
  for (const { name } of plan.treatments) {
    const free = plan.places.filter(
      ({ coupon, treatment }) => treatment === name && asked.has(coupon) && !grouped.has(coupon),
    );
    const count = Math.max(1, Math.floor(free.length / together));
    for (let at = 0; at < count && free.length > 0; at++)
      groups.push(
        free
          .slice(Math.round((at * free.length) / count), Math.round(((at + 1) * free.length) / count))
          .map(({ coupon }) => coupon),
      );
  }
  const place = new Map(plan.places.map(({ coupon }, at) => [coupon, at]));
  return groups.sort((a, b) => place.get(a[0]!)! - place.get(b[0]!)!);
}
