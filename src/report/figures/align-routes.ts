/**
 * Routes laid side by side: the steps that all of them have are the rungs, and between two rungs stands what only
 * some of them have. What stands between the rungs is what a trial tests.
 */
export type LaidStep = { name: string; treated: "alone" | "together" };
export type RouteToLay = { treatment: string; steps: readonly LaidStep[] };

export type AlignedRoutes = {
  /** Steps that every route has, in their order. */
  shared: string[];
  /** For each route the steps before the first rung, between each two, and after the last: one list more than rungs. */
  own: { treatment: string; between: LaidStep[][] }[];
  /** Places between rungs where at least one route has a step of its own. */
  differing: number[];
};

export function alignRoutes(routes: readonly RouteToLay[]): AlignedRoutes {
  const names = routes.map((route) => route.steps.map((step) => step.name));
  const shared = names.length === 0 ? [] : names.slice(1).reduce(commonSteps, names[0]!);
  const own = routes.map((route) => ({ treatment: route.treatment, between: betweenRungs(route.steps, shared) }));
  const places = Array.from({ length: shared.length + 1 }, (_, place) => place);
  return { shared, own, differing: places.filter((place) => own.some((one) => one.between[place]!.length > 0)) };
}

function betweenRungs(steps: readonly LaidStep[], rungs: readonly string[]): LaidStep[][] {
  const between: LaidStep[][] = [[]];
  for (const step of steps) {
    if (step.name === rungs[between.length - 1]) between.push([]);
    else between.at(-1)!.push(step);
  }
  return between;
}

/** The longest list of steps that both have in the same order. */
function commonSteps(a: readonly string[], b: readonly string[]): string[] {
  const longest: number[][] = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      longest[i]![j] = a[i] === b[j] ? longest[i + 1]![j + 1]! + 1 : Math.max(longest[i + 1]![j]!, longest[i]![j + 1]!);
  const common: string[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    if (a[i] === b[j]) {
      common.push(a[i]!);
      i++;
      j++;
    } else if (longest[i + 1]![j]! >= longest[i]![j + 1]!) i++;
    else j++;
  }
  return common;
}
