/** A wide ring over a picture: dragged by a finger, moved by arrow keys, in mm on the coupon. */
import { type KeyboardEvent, type PointerEvent, type RefObject, useRef } from "react";
import { toMm } from "./brush.ts";
import type { SizeMm } from "./corner-geometry.ts";
import type { PointMm } from "./places.ts";

const arrows: Record<string, PointMm> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const stepMm = 0.5;
const wideStepMm = 5;

export function DragRing(props: {
  picture: RefObject<HTMLElement | null>;
  size: SizeMm;
  at: PointMm;
  name: string;
  mark: string;
  chosen: boolean;
  onHold: () => void;
  onMove: (to: PointMm) => void;
  /** Other keys: plus, minus, delete. */
  onKey: (key: string) => void;
}) {
  const { picture, size, at, name, mark, chosen, onHold, onMove, onKey } = props;
  // Taken off its middle it must not jump there: the distance is kept while it is dragged.
  const grip = useRef<PointMm | null>(null);
  const pointOf = (event: PointerEvent) => toMm(event, picture.current!.getBoundingClientRect(), size);
  const grab = (event: PointerEvent<HTMLButtonElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    const [x, y] = pointOf(event);
    grip.current = [at[0] - x, at[1] - y];
    onHold();
  };
  const drag = (event: PointerEvent) => {
    if (!grip.current) return;
    const [x, y] = pointOf(event);
    onMove([x + grip.current[0], y + grip.current[1]]);
  };
  const letGo = () => {
    grip.current = null;
  };
  const press = (event: KeyboardEvent) => {
    const arrow = arrows[event.key];
    if (!arrow) return onKey(event.key);
    event.preventDefault();
    const step = event.shiftKey ? wideStepMm : stepMm;
    onHold();
    onMove([at[0] + arrow[0] * step, at[1] + arrow[1] * step]);
  };
  return (
    <button
      type="button"
      className={chosen ? "corner-ring place-ring place-chosen" : "corner-ring place-ring"}
      aria-label={name}
      aria-pressed={chosen}
      style={{ left: `${(at[0] / size.lengthMm) * 100}%`, top: `${(at[1] / size.widthMm) * 100}%` }}
      onPointerDown={grab}
      onPointerMove={drag}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onClick={(event) => event.stopPropagation()}
      onFocus={onHold}
      onKeyDown={press}
    >
      <span>{mark}</span>
    </button>
  );
}
