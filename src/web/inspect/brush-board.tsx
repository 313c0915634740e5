/** The coupon cut out straight, with the strokes of the brush over it. Lengths in mm on the coupon. */
import { type KeyboardEvent, type PointerEvent, useId, useRef, useState } from "react";
import type { BrushStroke, Measurement } from "../../api/photo.ts";
import { brushText } from "../text/inspect.ts";
import { isFarEnough, type PointMm, strokePath, strokePointsLimit, toMm } from "./brush.ts";
import { ringMoved } from "./brush-keys.ts";
import { pictureUrl } from "./measuring.ts";

export type BrushTool = BrushStroke["paint"] | "move";
type Board = {
  measurement: Measurement;
  strokes: BrushStroke[];
  tool: BrushTool;
  widthMm: number;
  zoom: number;
  plain: boolean;
  onStroke: (stroke: BrushStroke) => void;
  /** A key that may change the brush: plus and minus. */
  onWidthKey: (key: string) => void;
};

export function BrushBoard({ measurement, strokes, tool, widthMm, zoom, plain, onStroke, onWidthKey }: Board) {
  const board = useRef<SVGSVGElement>(null);
  const keysId = useId();
  /** Where the keyboard holds the brush; null: a pointer does. */
  const [ring, setRing] = useState<PointMm | null>(null);
  const [points, setPoints] = useState<PointMm[]>([]);
  const { sizeMm, edgeBandMm } = measurement.request;
  const picture = plain ? measurement.rectified : measurement.overlay;
  const [isWholeHere, setWholeHere] = useState(true);
  const painting = tool !== "move";

  const pointOf = (event: PointerEvent) => toMm(event, board.current!.getBoundingClientRect(), sizeMm);
  const begin = (event: PointerEvent<SVGSVGElement>) => {
    if (!painting || !event.isPrimary) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setRing(null);
    setPoints([pointOf(event)]);
  };
  const go = (event: PointerEvent) => {
    const next = pointOf(event);
    if (points.length === 0 || points.length >= strokePointsLimit || !isFarEnough(points, next, widthMm)) return;
    setPoints([...points, next]);
  };
  const end = () => {
    if (points.length > 0 && painting) onStroke({ paint: tool, widthMm, pointsMm: points });
    setPoints([]);
  };
  const press = (event: KeyboardEvent<HTMLElement>) => {
    if (!painting || event.ctrlKey || event.metaKey || event.altKey) return;
    const at: PointMm = ring ?? [sizeMm.lengthMm / 2, sizeMm.widthMm / 2];
    const moved = ringMoved(at, event, { size: sizeMm, widthMm });
    if (moved === null && event.key !== " ") return onWidthKey(event.key);
    event.preventDefault();
    setRing(moved ?? at);
    if (moved === null) onStroke({ paint: tool, widthMm, pointsMm: [at] });
    else showInWindow(event.currentTarget, moved, sizeMm);
  };
  const current: BrushStroke[] = points.length > 0 && painting ? [{ paint: tool, widthMm, pointsMm: points }] : [];

  return (
    <>
      {painting && (
        <p id={keysId} className="hint for-keys">
          {brushText.keys}
        </p>
      )}
      <p role="status" className="sr-only">
        {ring && painting && brushText.ringAt(ring, widthMm)}
      </p>
      {/* An application: the arrow keys are its own, also where a screen reader would take them. */}
      <div
        role="application"
        className="brush-window"
        aria-label={brushText.window}
        aria-describedby={painting ? keysId : undefined}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: without it a keyboard could neither paint nor scroll
        tabIndex={0}
        onKeyDown={press}
        onBlur={() => setRing(null)}
      >
        <svg
          ref={board}
          role="img"
          aria-label={brushText.canvas}
          className={painting ? "brush-board brush-painting" : "brush-board"}
          style={{ width: `${zoom * 100}%` }}
          viewBox={`0 0 ${sizeMm.lengthMm} ${sizeMm.widthMm}`}
          onPointerDown={begin}
          onPointerMove={go}
          onPointerUp={end}
          onPointerCancel={() => setPoints([])}
        >
          <defs>
            <pattern id="left-out" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect width="2" height="2" className="left-out-ground" />
              <line x1="0.5" x2="0.5" y2="2" className="left-out-line" />
            </pattern>
          </defs>
          <image
            href={pictureUrl(picture, isWholeHere ? undefined : 1280)}
            // Without network only the small one may be on this device.
            onError={() => setWholeHere(false)}
            width={sizeMm.lengthMm}
            height={sizeMm.widthMm}
            preserveAspectRatio="none"
          />
          {edgeBandMm > 0 && (
            <rect
              className="edge-band"
              x={edgeBandMm}
              y={edgeBandMm}
              width={Math.max(0, sizeMm.lengthMm - 2 * edgeBandMm)}
              height={Math.max(0, sizeMm.widthMm - 2 * edgeBandMm)}
            />
          )}
          {[...strokes, ...current].map((stroke, at) => (
            <path
              // biome-ignore lint/suspicious/noArrayIndexKey: strokes lie over each other in their order and have no name
              key={at}
              className={`brush-stroke brush-${stroke.paint.replace(" ", "-")}`}
              d={strokePath(stroke.pointsMm)}
              strokeWidth={stroke.widthMm}
            />
          ))}
          {ring && painting && (
            <g className="brush-ring">
              <circle cx={ring[0]} cy={ring[1]} r={widthMm / 2} />
              <circle cx={ring[0]} cy={ring[1]} r={widthMm / 2} />
            </g>
          )}
        </svg>
      </div>
    </>
  );
}

/** Zoomed in, the ring stays in the middle of what is seen. */
function showInWindow(frame: HTMLElement, [x, y]: PointMm, size: { lengthMm: number; widthMm: number }) {
  frame.scrollTo({
    left: (x / size.lengthMm) * frame.scrollWidth - frame.clientWidth / 2,
    top: (y / size.widthMm) * frame.scrollHeight - frame.clientHeight / 2,
  });
}
