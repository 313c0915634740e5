/** The days outdoors on one axis: the air of each day, the looks as ticks, and the first rust of each coupon. */
import { type ClimateDay, dayTicks, type FirstRustSpan, lookTicks, rustLanes } from "./days-strip-layout.ts";

export type DaysStripProps = {
  days: number;
  looks: readonly { day: number }[];
  plannedDays: readonly number[];
  firstRust: readonly FirstRustSpan[];
  climate: readonly ClimateDay[];
  /** Days from the start to now; null once all is down or in print. */
  nowDay: number | null;
  label: string;
};

const plotPx = 640;
const left = 74;
const right = 40;
const soft = "var(--ink-soft, #5c5f63)";
const line = "var(--line, #ddd6c8)";
const rust = "var(--rust, #9c3b1b)";
const air = "var(--air, #6d8a97)";
const bands = { air: 26, looks: 22, lane: 15 };

export function DaysStrip({ days, looks, plannedDays, firstRust, climate, nowDay, label }: DaysStripProps) {
  const x = (day: number) => left + (day / Math.max(days, 1)) * plotPx;
  const rusted = rustLanes(firstRust, days, plotPx);
  const airHeight = climate.length > 0 ? bands.air + 8 : 0;
  const looksTop = 6 + airHeight;
  const rustTop = looksTop + bands.looks + 8;
  const axisTop = rustTop + Math.max(1, ...rusted.map((one) => one.lane + 1)) * bands.lane + 6;
  return (
    <svg
      viewBox={`0 0 ${left + plotPx + right} ${axisTop + 36}`}
      style={{ width: "100%", minWidth: 560, height: "auto" }}
      role="img"
      aria-label={label}
      fontSize={12}
      fontFamily="inherit"
    >
      {climate.length > 0 && <AirBand climate={climate} x={x} top={6} dayPx={plotPx / Math.max(days, 1)} />}
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
          <text x={one.labelAt} y={11} fontSize={11} fill="currentColor">
            {one.label}
          </text>
        </g>
      ))}
      <DayAxis days={days} x={x} top={axisTop} />
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

/** Damp is height and depth of tone at once; what nobody measured stays an empty frame. */
function AirBand({ climate, x, top, dayPx }: Scaled & { climate: readonly ClimateDay[]; dayPx: number }) {
  return (
    <g>
      <text x={0} y={top + 17} fill={soft}>
        damp air
      </text>
      <rect x={left} y={top} width={plotPx} height={bands.air} fill="none" stroke={line} />
      {climate.map((one) => (
        <rect
          key={one.day}
          x={x(one.day)}
          y={top + bands.air * (1 - one.rhPercent / 102)}
          width={Math.max(dayPx - 0.4, 0.6)}
          height={(bands.air * one.rhPercent) / 102}
          fill={air}
          fillOpacity={0.25 + 0.75 * Math.max(0, (one.rhPercent - 40) / 62)}
        >
          <title>{`Day ${one.day}: relative humidity ${Math.round(one.rhPercent)} % on average, air ${one.lowC.toFixed(0)} to ${one.highC.toFixed(0)} °C`}</title>
        </rect>
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

function DayAxis({ days, x, top }: Scaled & { days: number }) {
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
