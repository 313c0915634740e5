/** The chance to show a difference by coupons of each treatment: one line if one is better, one if all are, each with its error. */
import type { ReactNode } from "react";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import type { SimulatedShare } from "../../core/trial/simulation-tally.ts";
import { chancePlaces } from "./chance-places.ts";
import { figureText } from "./figure-text.ts";

export type ChancePoint = { each: number; line: BetterOnes; chance: SimulatedShare };

const text = figureText.chance;

export function ChanceFigure(props: {
  points: readonly ChancePoint[];
  /** Coupons of each where the plan stands. */
  handle: number;
  most: number;
  widthPx: number;
  wanted: number;
  title: string;
  children?: ReactNode;
}) {
  const { points, handle, most, widthPx, wanted, title, children } = props;
  const place = chancePlaces({ most, widthPx });
  const lines = (["one", "all"] as const).map((line) => ({
    line,
    own: points.filter((point) => point.line === line).sort((a, b) => a.each - b.each),
  }));
  return (
    <svg
      className="fig-chance"
      width={widthPx}
      height={place.heightPx}
      viewBox={`0 0 ${widthPx} ${place.heightPx}`}
      role="img"
    >
      <title>{title}</title>
      <g className="fig-grid">
        {[0, 0.5, 1].map((share) => (
          <g key={share}>
            <line x1={place.left} x2={place.right} y1={place.y(share)} y2={place.y(share)} />
            <text x={place.left - 6} y={place.y(share) + 4} textAnchor="end">
              {Math.round(100 * share)} %
            </text>
          </g>
        ))}
        {place.ticks.map((each) => (
          <text key={each} x={place.x(each)} y={place.y(0) + 18} textAnchor="middle">
            {each}
          </text>
        ))}
      </g>
      <line className="fig-wanted" x1={place.left} x2={place.right} y1={place.y(wanted)} y2={place.y(wanted)} />
      <text className="fig-axis-title" x={place.left - 6} y={place.y(wanted) + 4} textAnchor="end">
        {Math.round(100 * wanted)} %
      </text>
      <line className="fig-handle" x1={place.x(handle)} x2={place.x(handle)} y1={place.y(1)} y2={place.y(0)} />
      {lines.map(({ line, own }) => (
        <g key={line} className={`fig-chance-${line}`}>
          <polygon className="fig-chance-band" points={place.band(own)} />
          <polyline points={own.map(({ each, chance }) => `${place.x(each)},${place.y(chance.share)}`).join(" ")} />
          {own.map(({ each, chance }) =>
            line === "one" ? (
              <circle key={each} cx={place.x(each)} cy={place.y(chance.share)} r={3.5} />
            ) : (
              <rect key={each} x={place.x(each) - 3.5} y={place.y(chance.share) - 3.5} width={7} height={7} />
            ),
          )}
        </g>
      ))}
      {place.labels(lines.map(({ line, own }) => ({ line, last: own.at(-1) ?? null }))).map(({ line, y }) => (
        <text key={line} className={`fig-chance-${line} fig-name`} x={place.right + 8} y={y + 4}>
          {lines.every(({ own }) => own.length > 0) ? text.lines[line] : text.alone}
        </text>
      ))}
      <text className="fig-axis-title" x={place.left} y={place.heightPx - 4}>
        {text.axis}
      </text>
      {children}
    </svg>
  );
}
