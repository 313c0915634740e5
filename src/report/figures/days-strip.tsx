/** The days outdoors on one axis: the wet hours of each day and nights with dew, the looks as ticks, and the first rust of each coupon. */
import { useId } from "react";
import { dayBars, dayTicks, type FirstRustSpan, lookTicks, rightPx, rustLanes } from "./days-strip-layout.ts";
import { figureText } from "./figure-text.ts";
import type { DaysOfAir } from "./site-strip.ts";

export type DaysStripProps = {
  days: number;
  looks: readonly { day: number }[];
  plannedDays: readonly number[];
  firstRust: readonly FirstRustSpan[];
  /** null: nothing is drawn of the air. */
  climate: DaysOfAir | null;
  /** Days from the start to now; null once all is down or in print. */
  nowDay: number | null;
  /** As wide as it is shown, so that its letters keep their size on a phone. */
  widthPx: number;
  label: string;
};

const left = 74;
const soft = "var(--ink-soft, #5c5f63)";
const line = "var(--line, #ddd6c8)";
const rust = "var(--rust, #9c3b1b)";
const air = "var(--air, #6d8a97)";
const bands = { air: 30, dew: 12, looks: 22, lane: 15 };

export function DaysStrip({ days, looks, plannedDays, firstRust, climate, nowDay, widthPx, label }: DaysStripProps) {
  const plotPx = widthPx - left - rightPx;
  const x = (day: number) => left + (day / Math.max(days, 1)) * plotPx;
  const rusted = rustLanes(firstRust, days, plotPx);
  const airHeight = climate ? bands.air + bands.dew + 10 : 0;
  const looksTop = 6 + airHeight;
  const rustTop = looksTop + bands.looks + 8;
  const axisTop = rustTop + Math.max(1, ...rusted.map((one) => one.lane + 1)) * bands.lane + 6;
  return (
    <svg
      width={widthPx}
      height={axisTop + 36}
      viewBox={`0 0 ${widthPx} ${axisTop + 36}`}
      style={{ display: "block" }}
      role="img"
      aria-label={label}
      fontSize={12}
      fontFamily="inherit"
    >
      {climate && <AirBand climate={climate} x={x} top={6} days={days} plotPx={plotPx} />}
      <LookBand looks={looks} plannedDays={plannedDays} x={x} top={looksTop} />
      <text x={0} y={rustTop + 11} fill={soft}>
        first rust
      </text>
      {rusted.length === 0 && (
        <text x={left} y={rustTop + 11} fill={soft}>
          none seen yet
        </text>
      )}
      {rusted.map((one) => (
        <g key={one.label} transform={`translate(${left} ${rustTop + one.lane * bands.lane})`}>
          <title>{`${one.coupons.length > 1 ? "Coupons" : "Coupon"} ${one.label}: first rust after day ${one.left} and by day ${one.right}`}</title>
          <line x1={one.from} x2={one.to} y1={7} y2={7} stroke={rust} strokeWidth={3} />
          <line x1={one.to} x2={one.to} y1={2} y2={12} stroke={rust} strokeWidth={2} />
          <text x={one.labelAt} y={11} fill="currentColor">
            {one.label}
          </text>
        </g>
      ))}
      <DayAxis days={days} plotPx={plotPx} x={x} top={axisTop} />
      {nowDay !== null && nowDay >= 0 && nowDay <= days && (
        <g>
          <line x1={x(nowDay)} x2={x(nowDay)} y1={0} y2={axisTop} stroke="currentColor" strokeDasharray="2 3" />
          <text x={x(nowDay)} y={axisTop + 28} textAnchor="middle" fill="currentColor" fontWeight={600}>
            today
          </text>
        </g>
      )}
    </svg>
  );
}

type Scaled = { x: (day: number) => number; top: number };

const hoursText = (hours: number) => `${Math.round(hours * 10) / 10} h`;

/** Wet hours rise from the ground; hours that nobody knows hang from the top as a shape of their own; dew is a dot by its night. */
function AirBand(props: Scaled & { climate: DaysOfAir; days: number; plotPx: number }) {
  const { climate, days, plotPx, x, top } = props;
  const hatch = useId();
  const dayPx = plotPx / Math.max(days, 1);
  const width = Math.max(dayPx - 0.4, 0.6);
  return (
    <g>
      <pattern id={hatch} width={5} height={5} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1={0} x2={0} y1={0} y2={5} stroke={soft} strokeWidth={1.2} />
      </pattern>
      <text x={0} y={top + 19} fill={soft}>
        {figureText.wetHours}
      </text>
      <rect x={left} y={top} width={plotPx} height={bands.air} fill="none" stroke={line} />
      {climate.days.map((day) => {
        const { wetPx, unknownPx } = dayBars(day, bands.air);
        return (
          <g key={day.day}>
            <title>{figureText.dayOutdoors(day.day, hoursText(day.wetHours), hoursText(day.unknownHours))}</title>
            <rect x={x(day.day)} y={top} width={width} height={bands.air} fill="transparent" />
            <rect x={x(day.day)} y={top + bands.air - wetPx} width={width} height={wetPx} fill={air} />
            {unknownPx > 0 && <rect x={x(day.day)} y={top} width={width} height={unknownPx} fill={`url(#${hatch})`} />}
          </g>
        );
      })}
      <text x={0} y={top + bands.air + 14} fill={soft}>
        {figureText.dewNights}
      </text>
      {climate.dewNights.map((night) => (
        <circle
          key={night.day}
          cx={x(night.day + 1)}
          cy={top + bands.air + 10}
          r={Math.min(3.2, Math.max(1, dayPx / 2.4))}
          fill="currentColor"
        >
          <title>{figureText.nightWithDew(night.day, hoursText(night.dewHours))}</title>
        </circle>
      ))}
    </g>
  );
}

function LookBand({ looks, plannedDays, x, top }: Scaled & Pick<DaysStripProps, "looks" | "plannedDays">) {
  const { done, ahead } = lookTicks(looks, plannedDays);
  return (
    <g>
      <text x={0} y={top + 15} fill={soft}>
        looks
      </text>
      {ahead.map((day) => (
        <circle key={day} cx={x(day)} cy={top + 11} r={3} fill="none" stroke={soft}>
          <title>{`Look planned for day ${day}`}</title>
        </circle>
      ))}
      {done.map((look) => (
        <line
          key={look.day}
          x1={x(look.day)}
          x2={x(look.day)}
          y1={top + 1}
          y2={top + 21}
          stroke="currentColor"
          strokeWidth={2}
        >
          <title>{`Day ${look.day}: ${look.coupons} looked at`}</title>
        </line>
      ))}
    </g>
  );
}

function DayAxis({ days, plotPx, x, top }: Scaled & { days: number; plotPx: number }) {
  return (
    <g>
      <line x1={left} x2={left + plotPx} y1={top} y2={top} stroke={soft} />
      <text x={0} y={top + 14} fill={soft}>
        days out
      </text>
      {dayTicks(days, plotPx).map((day) => (
        <g key={day}>
          <line x1={x(day)} x2={x(day)} y1={top} y2={top + 4} stroke={soft} />
          <text x={x(day)} y={top + 15} textAnchor="middle" fill={soft}>
            {day}
          </text>
        </g>
      ))}
    </g>
  );
}
