/** One comparison's effect with its interval, against no difference and the margin that matters. */
import type { Effect, Finding, ResponseKind } from "../../core/trial/finding.ts";
import { centredWithin, labelWidthPx, nameLines } from "./band-layout.ts";
import { drawnInterval, type EffectScale, marginSpan } from "./effect-scale.ts";
import { effectWithInterval, figureText } from "./figure-text.ts";
import { labelsThatFit } from "./lanes.ts";

const padPx = 16;
const middleY = 34;
const baseY = 54;
const letterPx = 6.8;
const besideFromPx = 560;

export function EffectAxis(props: { finding: Finding; kind: ResponseKind; scale: EffectScale; widthPx: number }) {
  const { finding, kind, scale, widthPx } = props;
  if (!finding.effect || saysNothing(finding.effect)) return <p className="fig-none">{figureText.noEffect}</p>;
  const plotPx = widthPx - 2 * padPx;
  const x = (value: number) => padPx + scale.place(value) * plotPx;
  const margin = marginSpan(finding, kind);
  const beside = widthPx >= besideFromPx;
  // Names that begin alike must not be cut to the same word: on a phone each end has a line of its own.
  const secondLine = beside ? 86 : 102;
  const height = secondLine + (margin ? 22 : 6);
  const words = effectWithInterval(finding.effect);
  const { left, right } = drawnInterval(finding.effect, scale);
  const middlePx = padPx + ((left.place + right.place) / 2) * plotPx;
  const letters = Math.floor((beside ? widthPx / 2 : widthPx) / letterPx) - 10;
  return (
    <svg className="fig-effect" width={widthPx} height={height} viewBox={`0 0 ${widthPx} ${height}`} role="img">
      <title>{`${finding.first} against ${finding.second}: ${words}`}</title>
      {margin && <Margin span={margin} x={x} widthPx={widthPx} wordsY={height - 6} />}
      <line className="fig-nothing" x1={x(scale.nothing)} x2={x(scale.nothing)} y1={16} y2={baseY + 4} />
      <line className="fig-base" x1={padPx} x2={widthPx - padPx} y1={baseY} y2={baseY} />
      <Ticks scale={scale} x={x} />
      <Interval finding={finding} scale={scale} at={(place) => padPx + place * plotPx} />
      <text
        className="fig-effect-words"
        x={centredWithin(middlePx, words.length * letterPx, widthPx)}
        y={11}
        textAnchor="middle"
      >
        {words}
      </text>
      <text className="fig-axis-title" x={0} y={86}>
        ← {figureText.better(nameLines(finding.second, letters, 1)[0] ?? "")}
      </text>
      <text className="fig-axis-title" x={widthPx} y={secondLine} textAnchor="end">
        {figureText.better(nameLines(finding.first, letters, 1)[0] ?? "")} →
      </text>
    </svg>
  );
}

/** Neither a value nor a limit: all of both came out the same. */
const saysNothing = ({ value, lower, upper }: Effect) => value === null && lower === null && upper === null;

function Margin(props: {
  span: { from: number; to: number };
  x: (value: number) => number;
  widthPx: number;
  wordsY: number;
}) {
  const { span, x, widthPx, wordsY } = props;
  const left = Math.min(x(span.from), x(span.to));
  const width = Math.abs(x(span.to) - x(span.from));
  return (
    <g className="fig-margin">
      <rect x={left} y={18} width={width} height={baseY - 18} />
      <path d={`M${left} 18V${baseY}M${left + width} 18V${baseY}`} />
      <text className="fig-axis-title" x={widthPx / 2} y={wordsY} textAnchor="middle">
        {figureText.margin}
      </text>
    </g>
  );
}

function Ticks({ scale, x }: { scale: EffectScale; x: (value: number) => number }) {
  const labels = scale.ticks
    .map((tick) => ({ ...tick, centre: x(tick.at), width: labelWidthPx(tick.label) }))
    .sort((a, b) => a.centre - b.centre);
  return (
    <g className="fig-grid">
      {labels.map((tick) => (
        <line key={tick.at} x1={tick.centre} x2={tick.centre} y1={baseY} y2={baseY + 4} />
      ))}
      {labelsThatFit(labels, 6).map((tick) => (
        <text key={tick.at} x={tick.centre} y={baseY + 17} textAnchor="middle">
          {tick.label}
        </text>
      ))}
    </g>
  );
}

function Interval(props: { finding: Finding; scale: EffectScale; at: (place: number) => number }) {
  const { finding, scale, at } = props;
  const effect = finding.effect!;
  const { left, right } = drawnInterval(effect, scale);
  if (left.place === right.place && left.open)
    return <OffTheAxis x={at(left.place)} towards={left.place > 0 ? 1 : -1} />;
  const inSight = effect.value !== null && effect.value >= scale.from && effect.value <= scale.to;
  return (
    <g>
      <line className="fig-effect-interval" x1={at(left.place)} x2={at(right.place)} y1={middleY} y2={middleY} />
      <End x={at(left.place)} open={left.open} towards={-1} />
      <End x={at(right.place)} open={right.open} towards={1} />
      {inSight && <path className="fig-solid" d={`M${at(scale.place(effect.value!)) - 6} ${middleY}l6 -6 6 6 -6 6z`} />}
    </g>
  );
}

/** The whole interval lies beyond the axis: an arrow that way. */
function OffTheAxis({ x, towards }: { x: number; towards: -1 | 1 }) {
  return (
    <g>
      <line className="fig-effect-interval" x1={x - towards * 24} x2={x} y1={middleY} y2={middleY} />
      <End x={x} open={true} towards={towards} />
    </g>
  );
}

function End({ x, open, towards }: { x: number; open: boolean; towards: -1 | 1 }) {
  if (open)
    return <path className="fig-arrow" d={`M${x} ${middleY - 6}L${x + towards * 9} ${middleY}L${x} ${middleY + 6}`} />;
  return <line className="fig-cap" x1={x} x2={x} y1={middleY - 6} y2={middleY + 6} />;
}
