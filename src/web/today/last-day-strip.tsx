/** Twenty-four hours as a small strip: wet hours filled, hours that nobody knows hatched, dry ones empty. */
import { useId } from "react";
import type { SiteSummary } from "../../api/shop.ts";
import { dayBars } from "../../report/figures/days-strip-layout.ts";
import { todayText } from "../text/today.ts";

const hourPx = 9;
const bandPx = 22;
const axisPx = 16;

export function LastDayStrip({ day, label }: { day: NonNullable<SiteSummary["lastDay"]>; label: string }) {
  const hatch = useId();
  const width = day.hours.length * hourPx;
  return (
    <svg
      className="last-day"
      viewBox={`-1 -1 ${width + 2} ${bandPx + axisPx + 2}`}
      width={width + 2}
      role="img"
      aria-label={label}
    >
      <pattern id={hatch} width={4} height={4} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1={0} x2={0} y1={0} y2={4} stroke="var(--ink-soft)" strokeWidth={1.2} />
      </pattern>
      {day.hours.map((hour, at) => {
        const { wetPx, unknownPx } = dayBars({ hours: 1, ...hour }, bandPx);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: an hour is its place in the day
          <g key={at} transform={`translate(${at * hourPx} 0)`}>
            <rect y={bandPx - wetPx} width={hourPx - 0.5} height={wetPx} fill="var(--air)" />
            <rect width={hourPx - 0.5} height={unknownPx} fill={`url(#${hatch})`} />
          </g>
        );
      })}
      <rect width={width} height={bandPx} fill="none" stroke="var(--line-strong)" />
      <text x={0} y={bandPx + 13} fontSize={12} fill="var(--ink-soft)">
        {todayText.sites.dayBefore}
      </text>
      <text x={width} y={bandPx + 13} fontSize={12} textAnchor="end" fill="var(--ink-soft)">
        {day.endsNow ? todayText.sites.now : todayText.sites.logEnds}
      </text>
    </svg>
  );
}
