/**
 * The axis of effects of one question: no difference in sight, the margin as a band, the better side to the right.
 * Ratios are drawn on a logarithmic axis, so that twice and half as long lie equally far from no difference.
 */
import { ticks as evenTicks } from "d3-array";
import type { Effect, Finding, ResponseKind } from "../../core/trial/finding.ts";
import { effectText } from "./number-text.ts";
import type { Scale } from "./response-scale.ts";

export type EffectScale = Scale & {
  /** The value that means no difference. */
  nothing: number;
  from: number;
  to: number;
};

const ratioNames: readonly string[] = ["time ratio", "stroke ratio", "area ratio", "ratio"] satisfies Effect["name"][];
/** Ratios beyond this factor leave the drawing by an arrow; the number beside them still says how far. */
const farthestFactor = 200;

export const isRatio = (name: Effect["name"]) => ratioNames.includes(name);

/** True when a larger effect means that the first treatment is the better one. */
export function largerIsBetter(name: Effect["name"], better: "higher" | "lower"): boolean {
  if (name === "time ratio" || name === "stroke ratio" || name === "Cliff's delta") return true;
  if (name === "area ratio") return false;
  return better === "higher";
}

/** Where a difference is too small to matter, on this effect's own axis; null: none stated, or stated on another axis. */
export function marginSpan(finding: Finding, kind: ResponseKind): { from: number; to: number } | null {
  const { effect, margin } = finding;
  if (!effect || margin === null) return null;
  const marginIsFactor = kind === "time" || kind === "area" || effect.name === "ratio";
  if (marginIsFactor !== isRatio(effect.name)) return null;
  if (marginIsFactor) return margin > 1 ? { from: 1 / margin, to: margin } : null;
  return effect.name === "Cliff's delta" ? null : { from: -margin, to: margin };
}

/** One axis for all findings of a question whose effects have the same name. */
export function effectScale(
  name: Effect["name"],
  findings: readonly Finding[],
  question: { kind: ResponseKind; better: "higher" | "lower" },
): EffectScale {
  const reached = findings.flatMap((finding) => {
    if (finding.effect?.name !== name) return [];
    const { value, lower, upper } = finding.effect;
    const margin = marginSpan(finding, question.kind);
    return [value, lower, upper, margin?.from ?? null, margin?.to ?? null].filter((one) => one !== null);
  });
  const scale = isRatio(name) ? ratioScale(reached) : differenceScale(name, reached);
  if (largerIsBetter(name, question.better)) return scale;
  return { ...scale, place: (value) => 1 - scale.place(value) };
}

function ratioScale(reached: readonly number[]): EffectScale {
  const factors = reached.filter((one) => one > 0).map((one) => Math.max(one, 1 / one));
  const end = Math.min(farthestFactor, Math.max(2.2, ...factors.map((factor) => factor * 1.15)));
  const width = Math.log(end);
  const all = [1.5, 2, 3, 5, 10, 20, 50, 100];
  const steps = end > 12 ? [2, 5, 10, 20, 50, 100] : end > 4 ? [2, 3, 5, 10] : all;
  const above = steps.filter((step) => step < end);
  const at = [...above.map((step) => 1 / step).reverse(), 1, ...above];
  return {
    // A limit of 0 or less cannot come from a ratio; it would lie off the left end.
    place: (value) => (value <= 0 ? -1 : Math.log(value) / (2 * width) + 0.5),
    ticks: at.map((one) => ({ at: one, label: `×${effectText(one)}` })),
    nothing: 1,
    from: 1 / end,
    to: end,
  };
}

function differenceScale(name: Effect["name"], reached: readonly number[]): EffectScale {
  const bounded = name === "Cliff's delta" || name === "difference of shares";
  const farthest = Math.max(0, ...reached.map(Math.abs));
  const end = bounded ? 1 : farthest > 0 ? farthest * 1.12 : 1;
  return {
    place: (value) => value / (2 * end) + 0.5,
    ticks: evenTicks(-end, end, 6).map((one) => ({
      at: one,
      label: one > 0 ? `+${effectText(one)}` : effectText(one),
    })),
    nothing: 0,
    from: -end,
    to: end,
  };
}

/** The drawn part of an interval: an end that is missing or off the axis becomes an arrow at the axis' end. */
export function drawnInterval(effect: { lower: number | null; upper: number | null }, scale: EffectScale) {
  const end = (limit: number | null, missing: number) => {
    const place = scale.place(limit ?? missing);
    return { place: Math.min(1, Math.max(0, place)), open: limit === null || place < 0 || place > 1 };
  };
  const ends = [end(effect.lower, scale.from), end(effect.upper, scale.to)].sort((a, b) => a.place - b.place);
  return { left: ends[0]!, right: ends[1]! };
}
