/** How long the strip of days is: to the last planned or made look, and to today while coupons still hang out longer. */
export function stripDays({
  looks,
  plannedDays,
  nowDay,
}: {
  looks: readonly { day: number }[];
  plannedDays: readonly number[];
  nowDay: number | null;
}): number {
  const end = Math.max(1, ...looks.map((look) => look.day), ...plannedDays);
  // A trial left hanging for a year after its last look would squeeze its looks into a corner.
  return nowDay !== null && nowDay > end && nowDay <= end * 1.5 ? nowDay : end;
}
