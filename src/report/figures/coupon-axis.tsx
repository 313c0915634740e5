/** Every coupon of a question as a numbered mark on one axis, a band for each treatment. Points before any summary. */
import type { CouponPoint, ResponseKind } from "../../core/trial/finding.ts";
import { type Band, bandLayout, type CouponMark, labelWidthPx, nameLines } from "./band-layout.ts";
import { axisTitle, figureText, pointText } from "./figure-text.ts";
import { labelsThatFit } from "./lanes.ts";
import type { Scale } from "./response-scale.ts";

export type CouponBand = { name: string; points: CouponPoint[]; witness: boolean };

type Placed = CouponBand & { layout: Band; top: number; lines: string[] };

/** From this width on, names stand beside their band instead of above it. */
const besideFromPx = 560;
const nameColumnPx = 176;
const padPx = 16;
/** Bold letters of a name at 13 px, on the wide side. */
const letterPx = 8;
const lineHeightPx = 16;

export function CouponAxis(props: {
  bands: CouponBand[];
  scale: Scale;
  kind: ResponseKind;
  unit: string;
  widthPx: number;
}) {
  const { bands, scale, kind, unit, widthPx } = props;
  const beside = widthPx >= besideFromPx;
  const left = (beside ? nameColumnPx : 0) + padPx;
  const plotPx = widthPx - left - rightPx(bands, kind);
  const placed = placeBands(bands, { scale, plotPx, beside, widthPx });
  const bottom = placed.reduce((end, band) => Math.max(end, band.top + bandHeight(band, beside)), 0);
  const starred = bands.some((band) => band.points.some((point) => point.deviation !== null));
  const title = axisTitle[kind](unit);
  // Beside the title where both have room; on a phone it has a line of its own.
  const alone = beside ? widthPx - left : widthPx;
  const starLine = labelWidthPx(title) + labelWidthPx(figureText.deviationStar) > alone ? lineHeightPx : 0;
  const height = bottom + 46 + (starred ? starLine : 0);
  return (
    <svg className="fig-axis" width={widthPx} height={height} viewBox={`0 0 ${widthPx} ${height}`} role="img">
      <title>{spoken(bands, kind, unit)}</title>
      <Grid scale={scale} left={left} plotPx={plotPx} bottom={bottom} />
      {placed.map((band) => (
        <g key={band.name} className={band.witness ? "fig-band fig-witness" : "fig-band"}>
          {band.lines.map((line, at) => (
            <text key={line} className="fig-name" x={0} y={band.top + 12 + at * lineHeightPx}>
              {line}
            </text>
          ))}
          <g transform={`translate(${left} ${band.top + (beside ? 0 : band.lines.length * lineHeightPx + 2)})`}>
            {band.layout.marks.map((mark) => (
              <Mark key={mark.point.coupon} mark={mark} laneHeight={band.layout.laneHeight} kind={kind} unit={unit} />
            ))}
          </g>
        </g>
      ))}
      <text className="fig-axis-title" x={beside ? left : 0} y={bottom + 40}>
        {title}
      </text>
      {starred && (
        <text className="fig-axis-title" x={widthPx} y={bottom + 40 + starLine} textAnchor="end">
          {figureText.deviationStar}
        </text>
      )}
    </svg>
  );
}

/** Room right of the axis: an interval's number stands after its end, a numbered mark reaches half over. */
function rightPx(bands: CouponBand[], kind: ResponseKind): number {
  const longest = Math.max(0, ...bands.flatMap((band) => band.points.map((point) => point.coupon.length + 1)));
  return kind === "time" ? 20 + longest * labelWidthPx("0") : 14 + (longest * labelWidthPx("0")) / 2;
}

function placeBands(
  bands: CouponBand[],
  room: { scale: Scale; plotPx: number; beside: boolean; widthPx: number },
): Placed[] {
  let top = 4;
  return bands.map((band) => {
    const letters = Math.floor((room.beside ? nameColumnPx - 8 : room.widthPx) / letterPx);
    const name = band.witness ? `${band.name}, ${figureText.witnesses}` : band.name;
    const lines = nameLines(name, letters, room.beside ? 3 : 2);
    const placed = { ...band, layout: bandLayout(band.points, room.scale, room.plotPx), top, lines };
    top += bandHeight(placed, room.beside) + 10;
    return placed;
  });
}

function bandHeight({ layout, lines }: Placed, beside: boolean): number {
  const names = lines.length * lineHeightPx;
  return beside ? Math.max(layout.height, names) : layout.height + names + 2;
}

function Grid({ scale, left, plotPx, bottom }: { scale: Scale; left: number; plotPx: number; bottom: number }) {
  const labels = scale.ticks.map((tick) => ({
    ...tick,
    centre: left + scale.place(tick.at) * plotPx,
    width: labelWidthPx(tick.label),
  }));
  return (
    <g className="fig-grid">
      {labels.map((tick) => (
        <line key={tick.at} x1={tick.centre} x2={tick.centre} y1={0} y2={bottom + 4} />
      ))}
      <line className="fig-base" x1={left} x2={left + plotPx} y1={bottom + 4} y2={bottom + 4} />
      {labelsThatFit(labels, 6).map((tick) => (
        <text key={tick.at} x={tick.centre} y={bottom + 18} textAnchor="middle">
          {tick.label}
        </text>
      ))}
    </g>
  );
}

function Mark(props: { mark: CouponMark; laneHeight: number; kind: ResponseKind; unit: string }) {
  const { mark, laneHeight, kind, unit } = props;
  const middle = mark.lane * laneHeight + laneHeight / 2;
  return (
    <g>
      <title>{pointText(mark.point, kind, unit)}</title>
      {"value" in mark.point.datum ? (
        <NumberedMark mark={mark} middle={middle} height={laneHeight - 1.5} />
      ) : (
        <IntervalMark mark={mark} middle={middle} />
      )}
    </g>
  );
}

function NumberedMark({ mark, middle, height }: { mark: CouponMark; middle: number; height: number }) {
  return (
    <>
      <rect
        className="fig-pill"
        x={mark.from - mark.width / 2}
        y={middle - height / 2}
        width={mark.width}
        height={height}
        rx={height / 2}
      />
      <text className="fig-number" x={mark.from} y={middle + 4} textAnchor="middle">
        {mark.label}
      </text>
    </>
  );
}

function IntervalMark({ mark, middle }: { mark: CouponMark; middle: number }) {
  const exact = mark.from === mark.to;
  return (
    <>
      {exact ? (
        <circle className="fig-solid" cx={mark.from} cy={middle} r={3} />
      ) : (
        <line className="fig-interval" x1={mark.from} x2={mark.to} y1={middle} y2={middle} />
      )}
      {!exact && <line className="fig-cap" x1={mark.from} x2={mark.from} y1={middle - 4} y2={middle + 4} />}
      {mark.open ? (
        <path className="fig-arrow" d={`M${mark.to - 6} ${middle - 4}L${mark.to} ${middle}l-6 4`} />
      ) : (
        !exact && <line className="fig-cap" x1={mark.to} x2={mark.to} y1={middle - 4} y2={middle + 4} />
      )}
      <text className="fig-number" x={mark.labelAt} y={middle + 4}>
        {mark.label}
      </text>
    </>
  );
}

function spoken(bands: CouponBand[], kind: ResponseKind, unit: string): string {
  const rows = bands.map(
    (band) => `${band.name}: ${band.points.map((point) => pointText(point, kind, unit)).join("; ") || "no coupon"}`,
  );
  return `${axisTitle[kind](unit)}. ${rows.join(". ")}.`;
}
