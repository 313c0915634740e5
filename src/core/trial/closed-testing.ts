/**
 * Adjusted p by closed testing (Marcus, Peritz, Gabriel 1976): a comparison counts only if every question that contains it does.
 * Stronger than Holm on pairwise exact p, whose smallest p times the number of comparisons often cannot fall below 5 %.
 */

/** A set of members as bits: bit i stands for member i. */
export type MemberSet = number;

export type AdjustedP = {
  p: number;
  /** Some of the questions that contain it were not asked, since it had failed already. */
  lowerBound: boolean;
};

/** A comparison above it is told apart by no verdict: what remains may be skipped. */
const hopeless = 0.2;
/** Up to so many members every question is asked, hopeless or not. */
const alwaysAsked = 6;

/**
 * Members are the treatments other than the control; `pOf` gives the p of "these and the control act alike". Adjusted p of a member:
 * the largest p over all sets that hold it.
 */
export function closedAgainstControl(members: number, pOf: (set: MemberSet) => number): AdjustedP[] {
  const adjusted = Array.from({ length: members }, (): AdjustedP => ({ p: 0, lowerBound: false }));
  for (const set of singlesThenLargest(members)) {
    const inside = adjusted.filter((_, member) => set & (1 << member));
    if (members > alwaysAsked && inside.every((one) => one.p > hopeless)) {
      for (const one of inside) one.lowerBound ||= one.p < 1;
      continue;
    }
    const p = pOf(set);
    for (const one of inside) one.p = Math.max(one.p, p);
  }
  return adjusted;
}

/** The pairs first, then all together: what has failed by then saves the most questions. */
function singlesThenLargest(members: number): MemberSet[] {
  const sets = Array.from({ length: 2 ** members - 1 }, (_, at) => at + 1);
  const rank = (set: MemberSet) => (sizeOf(set) === 1 ? members + 1 : sizeOf(set));
  return sets.sort((a, b) => rank(b) - rank(a) || a - b);
}

function sizeOf(set: MemberSet): number {
  let size = 0;
  for (let rest = set; rest; rest &= rest - 1) size++;
  return size;
}

/**
 * All pairs of members. A partition says which treatments act alike; its p is 1 - (1 - smallest p of its classes)^classes, over the
 * classes of two or more. Adjusted p of a pair: the largest p over all partitions that hold the two together.
 */
export function closedAllPairs(
  members: number,
  pOf: (set: MemberSet) => number,
): (first: number, second: number) => AdjustedP {
  const adjusted = new Map<MemberSet, AdjustedP>();
  const pairs = pairSets((1 << members) - 1);
  for (const pair of pairs) adjusted.set(pair, { p: pOf(pair), lowerBound: false });
  const known = new Map<MemberSet, number>();
  const setP = (set: MemberSet): number => {
    const p = known.get(set) ?? pOf(set);
    known.set(set, p);
    return p;
  };
  for (const classes of partitions(members)) {
    const inside = classes.flatMap(pairSets).map((pair) => adjusted.get(pair)!);
    if (members > alwaysAsked && inside.every((one) => one.p > hopeless)) {
      for (const one of inside) one.lowerBound ||= one.p < 1;
      continue;
    }
    const p = partitionP(classes, setP);
    for (const one of inside) one.p = Math.max(one.p, p);
  }
  return (first, second) => adjusted.get((1 << first) | (1 << second))!;
}

/**
 * Which members have every set that holds them passed. All together come first, then each alone: what has failed by then saves the
 * most questions, since a set without a member that still stands is not asked.
 */
export function passingAgainstControl(members: number, passes: (set: MemberSet) => boolean): boolean[] {
  const all = (1 << members) - 1;
  let standing = all;
  for (const set of [all, ...singlesThenLargest(members)]) if (standing & set && !passes(set)) standing &= ~set;
  return Array.from({ length: members }, (_, member) => (standing & (1 << member)) !== 0);
}

/** Which pairs have every partition passed that holds the two together; a partition without a pair that still stands is not asked. */
export function passingPairs(
  members: number,
  { pOf, passes }: { pOf: (set: MemberSet) => number; passes: (p: number) => boolean },
): (first: number, second: number) => boolean {
  const known = new Map<MemberSet, number>();
  const setP = (set: MemberSet): number => {
    const p = known.get(set) ?? pOf(set);
    known.set(set, p);
    return p;
  };
  const standing = new Set(pairSets((1 << members) - 1));
  const ask = (classes: readonly MemberSet[]) => {
    const inside = classes.flatMap(pairSets).filter((pair) => standing.has(pair));
    if (inside.length > 0 && !passes(partitionP(classes, setP))) for (const pair of inside) standing.delete(pair);
  };
  const all = partitions(members);
  for (const classes of all) if (sizeOf(classes[0]!) === members) ask(classes);
  for (const pair of [...standing]) ask([pair]);
  for (const classes of all) ask(classes);
  return (first, second) => standing.has((1 << first) | (1 << second));
}

function partitionP(classes: readonly MemberSet[], setP: (set: MemberSet) => number): number {
  const smallest = Math.min(...classes.map(setP));
  return classes.length === 1 ? smallest : 1 - (1 - smallest) ** classes.length;
}

function pairSets(set: MemberSet): MemberSet[] {
  const pairs: MemberSet[] = [];
  for (let a = 1; a <= set; a <<= 1) for (let b = a << 1; b <= set; b <<= 1) if (set & a && set & b) pairs.push(a | b);
  return pairs;
}

/** Every partition with a class of two or more, as those classes; the coarsest first. */
function partitions(members: number): MemberSet[][] {
  const found: MemberSet[][] = [];
  const place = (member: number, classes: MemberSet[]): void => {
    if (member === members) {
      const several = classes.filter((one) => sizeOf(one) > 1);
      if (several.length > 0) found.push(several);
      return;
    }
    for (const at of classes.keys()) place(member + 1, classes.with(at, classes[at]! | (1 << member)));
    place(member + 1, [...classes, 1 << member]);
  };
  place(0, []);
  return found;
}
