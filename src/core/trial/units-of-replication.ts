/**
 * What was treated separately. n counts these units, never coupons: six coupons oiled in one dip are one unit for the oil.
 *
 * For two treatments the steps count in which their routes differ. Coupons of one treatment that went through any such step in the same
 * application belong together: six finished in one bath run are one unit against another finish, however singly they were oiled. A plain table names no steps: there an application that both treatments have is one that they share.
 */
import type { Question, QuestionCoupon } from "./question.ts";

export type Unit = {
  treatment: string;
  block: string;
  /** The planned batch that all its coupons went through, where several units share one; "": none. */
  plot: string;
  coupons: QuestionCoupon[];
};

/** Two treatments, seen from the layout alone. */
export type PairLayout = {
  /** For each of the two, the groups of coupons that were treated together where the two differ. */
  together: Readonly<Record<string, readonly (readonly string[])[]>>;
  /**
   * "each has one": each of the two has a single batch of its own. "one against none": a single batch on one side, and coupons that
   * skip its steps on the other; then the coupons are the units. null: neither.
   */
  batch: { case: "each has one" | "one against none"; step: string; treatment: string } | null;
  /** A step in which they differ is not recorded: each coupon is taken to have gone through it by itself. */
  assumed: boolean;
};

/** The layout of each pair of treatments, asked by name in either order. */
export type TrialLayout = {
  pair: (first: string, second: string) => PairLayout;
  /** All of these treatments were dealt out within batches, so that they can be compared there. */
  withinBatches: (treatments: readonly string[]) => boolean;
  /** The units of these treatments for these pairs; worked out once. */
  places: (asked: ComparedTreatments) => readonly UnitPlace[];
};

/** Treatments, and the pairs of them that are compared. */
type ComparedTreatments = { treatments: readonly string[]; pairs: readonly (readonly [string, string])[] };
/** A unit by the places of its coupons in the question: the same for every question that has the same coupons. */
type UnitPlace = Omit<Unit, "coupons"> & { places: number[] };

/** What belongs together, for any pair of treatments; each pair is worked out once. */
export function trialLayout(question: Question): TrialLayout {
  const known = new Map<string, Map<string, PairLayout>>();
  const keep = (first: string, second: string, layout: PairLayout) => {
    const own = known.get(first) ?? new Map<string, PairLayout>();
    known.set(first, own.set(second, layout));
  };
  const coupons = new Map(
    question.treatments.map((name) => [name, question.coupons.filter((coupon) => coupon.treatment === name)]),
  );
  const planned = question.coupons.some(({ plot }) => plot !== undefined);
  const places = new Map<string, readonly UnitPlace[]>();
  const layout: TrialLayout = {
    withinBatches: (treatments) => planned && shareBatches(treatments, coupons),
    places: (asked) => {
      const key = JSON.stringify(asked);
      const found = places.get(key) ?? placedUnits(question, layout, asked);
      places.set(key, found);
      return found;
    },
    pair: (first, second) => {
      const found = known.get(first)?.get(second);
      if (found) return found;
      const both = pairLayout(
        question,
        sideOf(question, coupons, first, second),
        sideOf(question, coupons, second, first),
      );
      keep(first, second, both);
      keep(second, first, both);
      return both;
    },
  };
  return layout;
}

/** Each of them shares a planned batch with the first, directly: such treatments differ only in what is done within a batch. */
function shareBatches(treatments: readonly string[], coupons: ReadonlyMap<string, QuestionCoupon[]>): boolean {
  const batchesOf = (treatment: string) => new Set((coupons.get(treatment) ?? []).flatMap(({ plot }) => plot ?? []));
  const [first, ...others] = treatments;
  const own = batchesOf(first ?? "");
  return own.size > 0 && others.every((other) => [...batchesOf(other)].some((plot) => own.has(plot)));
}

/** One treatment against a partner: its coupons, and the steps in which it may differ from the partner. */
type Side = { treatment: string; coupons: QuestionCoupon[]; steps: readonly string[]; skips: boolean };

function sideOf(
  question: Question,
  coupons: ReadonlyMap<string, QuestionCoupon[]>,
  treatment: string,
  partner: string,
): Side {
  const own = coupons.get(treatment) ?? [];
  const steps = differingSteps(question, treatment, partner);
  const recorded = steps ?? [...new Set(own.flatMap((coupon) => Object.keys(coupon.applications)))];
  const skips = recorded.every((step) => own.every((coupon) => coupon.applications[step] === null));
  return { treatment, coupons: own, steps: recorded, skips: steps ? steps.length === 0 : recorded.length > 0 && skips };
}

/** Steps of this route that the other has not; null when the routes do not tell (unknown, or the same names). */
export function differingSteps(
  { routes }: Pick<Question, "routes">,
  treatment: string,
  partner: string,
): string[] | null {
  const own = routes?.[treatment];
  const other = routes?.[partner];
  if (!own || !other) return null;
  const differing = own.filter((step) => !other.includes(step));
  return differing.length === 0 && other.every((step) => own.includes(step)) ? null : differing;
}

function pairLayout(question: Question, first: Side, second: Side): PairLayout {
  const groups = { first: groupsOf(first, second), second: groupsOf(second, first) };
  const batch = batchCase(first, groups.first, second) ?? batchCase(second, groups.second, first);
  const bothAlone = onlyBatch(first, groups.first) && onlyBatch(second, groups.second);
  const several = first.coupons.length > 1 || second.coupons.length > 1;
  const layout: PairLayout = {
    together: { [first.treatment]: groups.first, [second.treatment]: groups.second },
    batch,
    assumed:
      question.treatedSeparately === "assumed" ||
      (question.treatedSeparately === "recorded" && unrecorded(first, second)),
  };
  if (bothAlone && several) {
    const step = onlyBatch(first, groups.first)!;
    return { ...layout, batch: { case: "each has one", step, treatment: first.treatment } };
  }
  if (batch) return { ...layout, together: { ...layout.together, [batch.treatment]: [] } };
  return withSharedCircumstances(question, first, second, layout);
}

/** Coupons with the same application of a step, unless the partner has it too: then it is a step that they share. */
function groupsOf(side: Side, partner: Side): string[][] {
  return side.steps.flatMap((step) => {
    const shared = new Set(partner.coupons.map((coupon) => coupon.applications[step]));
    const groups = new Map<string, string[]>();
    for (const { coupon, applications } of side.coupons) {
      const application = applications[step];
      if (application == null || shared.has(application)) continue;
      groups.set(application, [...(groups.get(application) ?? []), coupon]);
    }
    return [...groups.values()];
  });
}

/** The step of the one application that holds every coupon of this side; null when there is none. */
function onlyBatch(side: Side, groups: readonly (readonly string[])[]): string | null {
  if (side.coupons.length === 0 || !groups.some((group) => group.length === side.coupons.length)) return null;
  return (
    side.steps.find((step) => {
      const applications = new Set(side.coupons.map((coupon) => coupon.applications[step]));
      return applications.size === 1 && !applications.has(null) && !applications.has(undefined);
    }) ?? null
  );
}

function batchCase(side: Side, groups: readonly (readonly string[])[], partner: Side): PairLayout["batch"] {
  const step = onlyBatch(side, groups);
  if (step === null || side.coupons.length < 2 || !partner.skips) return null;
  return { case: "one against none", step, treatment: side.treatment };
}

function unrecorded(...sides: Side[]): boolean {
  return sides.some(({ coupons, steps }) =>
    coupons.some(({ applications }) => steps.some((step) => applications[step] === undefined)),
  );
}

/**
 * A named circumstance, or a step that both share, with two or more levels on each side and none in common cannot be told from the
 * treatment within a level: its levels become the units, as a batch would.
 */
function withSharedCircumstances(question: Question, first: Side, second: Side, layout: PairLayout): PairLayout {
  const together: Record<string, readonly (readonly string[])[]> = { ...layout.together };
  const coupons = [...first.coupons, ...second.coupons];
  const circumstances = new Set(coupons.flatMap((coupon) => Object.keys(coupon.circumstances)));
  const readings: Reading[] = [
    ...[...circumstances].map((name) => (coupon: QuestionCoupon) => coupon.circumstances[name]),
    ...sharedSteps(question, first.treatment, second.treatment).map(
      (step) => (coupon: QuestionCoupon) => coupon.applications[step],
    ),
  ];
  for (const reading of readings) {
    const [own, other] = [levelsOf(first, reading), levelsOf(second, reading)];
    if (!own || !other || own.size < 2 || other.size < 2) continue;
    if ([...own.keys()].some((level) => other.has(level))) continue;
    // Mere names, one coupon each, group nothing.
    together[first.treatment] = [...(together[first.treatment] ?? []), ...own.values()];
    together[second.treatment] = [...(together[second.treatment] ?? []), ...other.values()];
  }
  return { ...layout, together };
}

/** Steps that both routes have; none where nobody wrote the routes down. */
export function sharedSteps({ routes }: Pick<Question, "routes">, first: string, second: string): string[] {
  const other = routes?.[second] ?? [];
  return routes?.[first]?.filter((step) => other.includes(step)) ?? [];
}

type Reading = (coupon: QuestionCoupon) => string | number | null | undefined;

/** Coupons by level; null when the levels are numbers, or one was not recorded. */
function levelsOf(side: Side, reading: Reading): Map<string, string[]> | null {
  const levels = new Map<string, string[]>();
  for (const coupon of side.coupons) {
    const level = reading(coupon);
    if (typeof level !== "string") return null;
    levels.set(level, [...(levels.get(level) ?? []), coupon.coupon]);
  }
  return levels;
}

/**
 * The units of some treatments for the pairs that are compared: the coarsest that any of these pairs asks for.
 * `blocks` of the units are dropped (one common block) when a unit lies in several of them. Treatments that share their batches are
 * rearranged within them: there a batch is a block.
 */
export function unitsOfReplication(question: Question, layout: TrialLayout, asked: ComparedTreatments): Unit[] {
  const { coupons } = question;
  return layout.places(asked).map(({ treatment, block, plot, places }) => {
    return { treatment, block, plot, coupons: places.map((place) => coupons[place]!) };
  });
}

function placedUnits(question: Question, layout: TrialLayout, asked: ComparedTreatments): UnitPlace[] {
  const places = new Map(question.coupons.map((coupon, place) => [coupon, place]));
  return workedOutUnits(question, layout, asked).map(({ coupons, ...unit }) => {
    return { ...unit, places: coupons.map((coupon) => places.get(coupon)!) };
  });
}

function workedOutUnits(question: Question, layout: TrialLayout, { treatments, pairs }: ComparedTreatments): Unit[] {
  const units: Unit[] = [];
  for (const treatment of treatments) {
    const coupons = question.coupons.filter((coupon) => coupon.treatment === treatment);
    const together = pairs
      .filter((pair) => pair.includes(treatment))
      .flatMap(([first, second]) => layout.pair(first, second).together[treatment] ?? []);
    for (const members of joined(coupons, together))
      units.push({ treatment, coupons: members, block: blockOf(members[0]!), plot: plotOf(members) });
  }
  const spanning = units.some(({ coupons, block }) => coupons.some((one) => blockOf(one) !== block));
  if (spanning) for (const unit of units) unit.block = "";
  if (layout.withinBatches(treatments))
    return units.map((unit) => ({ ...unit, block: JSON.stringify([unit.block, unit.plot]), plot: "" }));
  // A batch that holds one unit is that unit.
  const plots = units.flatMap(({ plot }) => (plot === "" ? [] : [plot]));
  if (plots.length > 0 && new Set(plots).size === plots.length) for (const unit of units) unit.plot = "";
  return units;
}

function plotOf([first, ...others]: readonly QuestionCoupon[]): string {
  return first?.plot !== undefined && others.every((one) => one.plot === first.plot) ? first.plot : "";
}

function blockOf(coupon: QuestionCoupon): string {
  return coupon.block ?? "";
}

/** Coupons that hang together through the groups, each set in the order of the table. */
function joined(coupons: readonly QuestionCoupon[], together: readonly (readonly string[])[]): QuestionCoupon[][] {
  if (together.every((group) => group.length < 2)) return coupons.map((coupon) => [coupon]);
  const leader = new Map(coupons.map(({ coupon }) => [coupon, coupon]));
  const find = (coupon: string): string => {
    let at = coupon;
    while (leader.get(at) !== undefined && leader.get(at) !== at) at = leader.get(at)!;
    return at;
  };
  for (const group of together) for (const coupon of group) leader.set(find(coupon), find(group[0]!));
  const sets = new Map<string, QuestionCoupon[]>();
  for (const coupon of coupons) {
    const key = find(coupon.coupon);
    sets.set(key, [...(sets.get(key) ?? []), coupon]);
  }
  return [...sets.values()];
}
