/**
 * The rack as it hangs: numbered coupons at their places, rows as rows.
 * What befell a coupon is a shape on it (a flag, a cross, a dashed edge), so that no meaning hangs on colour.
 */
import type { ReactNode } from "react";

export type RackCoupon = {
  coupon: string;
  row: number;
  column: number;
  block: string | null;
  /** A spare that took this place over. */
  standsIn: boolean;
  /** A deviation touched it. */
  flagged: boolean;
  /** Lost or taken down. */
  gone: boolean;
};

const plate = { height: 52, gap: 4 };
const margin = { left: 52, top: 20 };
const rowPx = 70;
/** No letter is smaller than this as shown: a number too long for a plate widens all of them. */
const leastFontPx = 12;
const boldLetterPx = 7.5;
const plateWidthPx = (coupons: readonly RackCoupon[]) =>
  Math.max(40, ...coupons.map(({ coupon }) => 6 + coupon.length * boldLetterPx));
const lineColour = "var(--line-strong, #b9b2a3)";
const paper = "var(--plate, #ffffff)";

export function RackFigure({ coupons, label }: { coupons: readonly RackCoupon[]; label: string }) {
  const columns = Math.max(1, ...coupons.map((one) => one.column));
  const rows = Math.max(1, ...coupons.map((one) => one.row));
  const platePx = plateWidthPx(coupons);
  const width = margin.left + columns * (platePx + plate.gap);
  const height = margin.top + rows * rowPx;
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      style={{ width: "100%", maxWidth: width * 1.15, minWidth: width, height: "auto" }}
      role="img"
      aria-label={label}
      fontFamily="inherit"
    >
      {Array.from({ length: rows }, (_, at) => at + 1).map((row) => (
        <RackRow
          key={row}
          row={row}
          platePx={platePx}
          width={width}
          coupons={coupons.filter((one) => one.row === row)}
        />
      ))}
    </svg>
  );
}

function RackRow(props: { row: number; platePx: number; width: number; coupons: RackCoupon[] }) {
  const { row, platePx, width, coupons } = props;
  const top = margin.top + (row - 1) * rowPx;
  const blocks = [...new Set(coupons.flatMap((one) => (one.block === null ? [] : [one.block])))];
  return (
    <g>
      <line x1={margin.left - 4} x2={width} y1={top - 5} y2={top - 5} stroke={lineColour} strokeWidth={2.5} />
      <text x={0} y={top + 20} fontSize={leastFontPx} fill="currentColor">
        row {row}
      </text>
      {blocks.length === 1 && (
        <text x={0} y={top + 35} fontSize={leastFontPx} fill="var(--ink-soft, #5c5f63)">
          block {blocks[0]}
        </text>
      )}
      {coupons.map((one) => (
        <Plate
          key={one.coupon}
          coupon={one}
          platePx={platePx}
          left={margin.left + (one.column - 1) * (platePx + plate.gap)}
          top={top}
        />
      ))}
    </g>
  );
}

function Plate(props: { coupon: RackCoupon; platePx: number; left: number; top: number }) {
  const { coupon, platePx, left, top } = props;
  const middle = left + platePx / 2;
  return (
    <g>
      <title>{plateTitle(coupon)}</title>
      <line x1={middle} x2={middle} y1={top - 5} y2={top + 5} stroke={lineColour} strokeWidth={1.5} />
      <rect
        x={left}
        y={top}
        width={platePx}
        height={plate.height}
        rx={2.5}
        fill={coupon.gone ? "none" : paper}
        stroke="currentColor"
        strokeWidth={coupon.gone ? 0.8 : 1.3}
        strokeDasharray={coupon.standsIn ? "4 3" : undefined}
      />
      <circle cx={middle} cy={top + 8} r={3} fill="none" stroke="currentColor" strokeWidth={1} />
      <text
        x={middle}
        y={top + 35}
        fontSize={coupon.coupon.length > 3 ? leastFontPx : 15}
        fontWeight={600}
        textAnchor="middle"
        fill="currentColor"
        opacity={coupon.gone ? 0.6 : 1}
      >
        {coupon.coupon}
      </text>
      {coupon.flagged && <Flag left={left + platePx - 13} top={top - 3} />}
      {coupon.gone && <Cross left={left} top={top} platePx={platePx} />}
    </g>
  );
}

function plateTitle(coupon: RackCoupon): string {
  const said = [`Coupon ${coupon.coupon}`];
  if (coupon.block !== null) said.push(`block ${coupon.block}`);
  if (coupon.standsIn) said.push("a spare that took the place over");
  if (coupon.flagged) said.push("a deviation touched it");
  if (coupon.gone) said.push("lost or taken down");
  return said.join(", ");
}

function Flag({ left, top }: { left: number; top: number }): ReactNode {
  return (
    <path
      d={`M${left} ${top}v17M${left} ${top}l12 4l-12 4`}
      fill="currentColor"
      stroke="currentColor"
      strokeWidth={1.4}
      strokeLinejoin="round"
    />
  );
}

function Cross({ left, top, platePx }: { left: number; top: number; platePx: number }): ReactNode {
  const right = left + platePx;
  const bottom = top + plate.height;
  return (
    <path
      d={`M${left} ${top}L${right} ${bottom}M${right} ${top}L${left} ${bottom}`}
      stroke="currentColor"
      strokeWidth={1}
    />
  );
}
