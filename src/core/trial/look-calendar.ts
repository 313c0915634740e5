/** When to look: dense at first, thinning out. */

const denseDays = [1, 2, 4, 7, 10, 14];
const weekly = 7;
const everySecondWeekFromDay = 84;

/** Days offered, up to and with the first one that is not before `untilDay`. */
export function offeredLookDays(untilDay: number): number[] {
  const days = [...denseDays];
  while (days.at(-1)! < untilDay)
    days.push(days.at(-1)! + (days.at(-1)! < everySecondWeekFromDay ? weekly : 2 * weekly));
  return days.filter((_, at) => at === 0 || days[at - 1]! < untilDay);
}

/** Medians that the user expects, in days; they decide how dense is dense enough. */
export type ExpectedMedians = { controlDays: number; bestDays: number };

const fewestLooks = 6;

/** What the planned days cannot show, as sentences; empty when nothing speaks against them. */
export function lookWarnings(lookDays: readonly number[], expected: ExpectedMedians | null): string[] {
  const days = [...new Set(lookDays)].filter((day) => day > 0).sort((a, b) => a - b);
  const first = days[0];
  if (first === undefined) return ["No look is planned after day 0: nothing can be seen."];
  return [
    ...(days.length < fewestLooks
      ? [`Few looks (${days.length}): plan ${fewestLooks} or more, so that first rust falls between two near ones.`]
      : []),
    ...(expected === null ? firstGapWarning(first) : gapWarnings(days, expected)),
    ...(expected !== null && days.at(-1)! <= expected.bestDays
      ? [
          `The last look, day ${days.at(-1)}, comes before half of the best have rusted (day ${expected.bestDays}): look longer.`,
        ]
      : []),
  ];
}

function firstGapWarning(first: number): string[] {
  if (first < weekly) return [];
  return [
    `Nobody looks before day ${first}: a fast treatment may be rusty on every coupon by then, and how fast it was is lost. Days ${denseDays.join(", ")}, then weekly, see more.`,
  ];
}

function gapWarnings(days: readonly number[], { controlDays }: ExpectedMedians): string[] {
  const widest = controlDays / 3;
  const wide = days.flatMap((day, at) => {
    const before = at === 0 ? 0 : days[at - 1]!;
    return before < controlDays && day - before > widest ? [`${before} to ${day}`] : [];
  });
  if (wide.length === 0) return [];
  return [
    `Before half of the control has rusted (day ${controlDays}) no gap should be longer than a third of that time; too wide: days ${wide.join(", ")}.`,
  ];
}
