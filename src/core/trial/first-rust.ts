/** When a coupon first rusted. Looks are days apart, so this is an interval, never a point. */
import type { TimeDatum } from "./question.ts";

export type FirstRust = {
  /** Days; left 0: before the first look. null: not a single look after day 0, which carries nothing. */
  datum: TimeDatum | null;
  /** Rust was seen on these days and was gone at a later look: said, not counted. */
  vanishedOnDays: number[];
  rustedOnDay0: boolean;
};

/**
 * First rust that stayed: between the last clean look and the first look from which rust is there at every later one.
 * Days from the start of exposure, one look a day, in any order.
 */
export function firstRust(looks: readonly { day: number; rusted: boolean }[]): FirstRust {
  const inOrder = [...looks].sort((a, b) => a.day - b.day);
  const lastClean = inOrder.findLastIndex((look) => !look.rusted);
  const from = inOrder[lastClean + 1];
  const left = inOrder[lastClean]?.day ?? 0;
  const carriesNothing = from === undefined && left === 0;
  return {
    datum: carriesNothing ? null : { left, right: from?.day ?? null },
    vanishedOnDays: inOrder.slice(0, lastClean + 1).flatMap((look) => (look.rusted ? [look.day] : [])),
    rustedOnDay0: inOrder[0]?.day === 0 && inOrder[0].rusted,
  };
}
