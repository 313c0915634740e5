/** Read against true rusted area, each plate a point; on the line both agree. */
import type { EyeReading } from "../../core/rating/eye-agreement.ts";

const side = 300;
const frame = { left: 44, bottom: 40, top: 8, right: 8 };
const ticks = [0.01, 0.1, 1, 10, 100];
/** A plate read as clean stands on the floor of the figure. */
const leastPercent = 0.005;

export function EyeScatter(props: {
  readings: readonly EyeReading[];
  words: { label: string; truth: string; read: string };
}) {
  const { readings, words } = props;
  return (
    <svg className="eye-scatter" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={words.label}>
      <line className="eye-agree" x1={across(0.01)} y1={up(0.01)} x2={across(100)} y2={up(100)} />
      {ticks.map((tick) => (
        <g key={tick}>
          <line className="eye-grid" x1={across(tick)} x2={across(tick)} y1={up(leastPercent)} y2={up(100)} />
          <line className="eye-grid" y1={up(tick)} y2={up(tick)} x1={across(leastPercent)} x2={across(100)} />
          <text x={across(tick)} y={side - frame.bottom + 15} textAnchor="middle">
            {tick}
          </text>
          <text x={frame.left - 5} y={up(tick) + 4} textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      {readings.map(({ truePercent, read }, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the order of the plates is their only name, and never changes
        <circle key={at} className="eye-point" cx={across(truePercent)} cy={up(read)} r="4.5" />
      ))}
      <text x={(side + frame.left) / 2} y={side - 5} textAnchor="middle">
        {words.truth}
      </text>
      <text transform={`translate(11 ${side / 2}) rotate(-90)`} textAnchor="middle">
        {words.read}
      </text>
    </svg>
  );
}

/** 0 at the least percent, 1 at 100 %. */
const share = (percent: number) =>
  Math.log(Math.max(percent, leastPercent) / leastPercent) / Math.log(100 / leastPercent);
const across = (percent: number) => frame.left + share(percent) * (side - frame.left - frame.right);
const up = (percent: number) => side - frame.bottom - share(percent) * (side - frame.top - frame.bottom);
