/** The photograph with four rings to drag onto the coupon's corners, and one on something white where it is wanted; a lens shows what the finger covers. */
import { type KeyboardEvent, type MouseEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import type { Photo } from "../../api/photo.ts";
import { inspectText } from "../text/inspect.ts";
import { usePictureOf } from "../waiting/picture-of.ts";
import { type Corners, inPicture, type Point, withCorner } from "./corner-geometry.ts";
import { Lens } from "./lens.tsx";

type Picked = {
  photo: Pick<Photo, "hash" | "widthPx" | "heightPx">;
  corners: Corners;
  onChange: (corners: Corners) => void;
  white?: WhitePlace;
};

/** Something white or grey in the picture: asked for, the next tap puts its ring there. */
export type WhitePlace = { at: Point | null; asked: boolean; onPlace: (at: Point) => void };

const arrows: Record<string, Point> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

export function CornerPicker({ photo, corners, onChange, white }: Picked) {
  const frame = useRef<HTMLDivElement>(null);
  const picture = usePictureOf(photo.hash);
  const [held, setHeld] = useState<number | null>(null);
  // A ring taken off its middle must not jump there: the distance is kept while it is dragged.
  const grip = useRef<Point>([0, 0]);
  // It is asked for from below the picture, which may have left the screen by then.
  const asksWhite = white?.asked ?? false;
  useEffect(() => {
    if (asksWhite) frame.current?.scrollIntoView({ block: "nearest" });
  }, [asksWhite]);

  const rings: readonly Point[] = white?.at ? [...corners, white.at] : corners;
  const move = (at: number, to: Point) =>
    at < corners.length ? onChange(withCorner(corners, at, to, photo)) : white?.onPlace(inPicture(to, photo));
  const placeOf = (event: PointerEvent | MouseEvent): Point => {
    const box = frame.current!.getBoundingClientRect();
    return [
      ((event.clientX - box.left) / box.width) * photo.widthPx,
      ((event.clientY - box.top) / box.height) * photo.heightPx,
    ];
  };
  const grab = (at: number) => (event: PointerEvent<HTMLButtonElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    const [x, y] = placeOf(event);
    grip.current = [rings[at]![0] - x, rings[at]![1] - y];
    setHeld(at);
  };
  const drag = (at: number) => (event: PointerEvent) => {
    if (held !== at) return;
    const [x, y] = placeOf(event);
    move(at, [x + grip.current[0], y + grip.current[1]]);
  };
  const nudge = (at: number) => (event: KeyboardEvent) => {
    const arrow = arrows[event.key];
    if (!arrow) return;
    event.preventDefault();
    const step = (photo.widthPx / 1000) * (event.shiftKey ? 10 : 1);
    const [x, y] = rings[at]!;
    move(at, [x + arrow[0] * step, y + arrow[1] * step]);
    setHeld(at);
  };
  const letGo = () => setHeld(null);
  // A mouse takes the next ring before the last one loses the focus: that ring must not take this one out of the hand.
  const blurred = (at: number) => () => setHeld((now) => (now === at ? null : now));

  return (
    <div
      className="corner-frame"
      ref={frame}
      style={{
        aspectRatio: `${photo.widthPx} / ${photo.heightPx}`,
        width: `min(100%, calc(62dvh * ${photo.widthPx / photo.heightPx}))`,
      }}
    >
      <img src={picture} alt="" draggable={false} />
      <Outline corners={corners} photo={photo} />
      {rings.map(([x, y], at) => (
        <button
          // biome-ignore lint/suspicious/noArrayIndexKey: a corner is its place in the order, the white place comes last
          key={at}
          type="button"
          className="corner-ring"
          aria-label={at < corners.length ? inspectText.cornerLabel(at) : inspectText.whiteLabel}
          style={{ left: `${(x / photo.widthPx) * 100}%`, top: `${(y / photo.heightPx) * 100}%` }}
          onPointerDown={grab(at)}
          onPointerMove={drag(at)}
          onPointerUp={letGo}
          onPointerCancel={letGo}
          onKeyDown={nudge(at)}
          onBlur={blurred(at)}
        >
          <span>{at < corners.length ? at + 1 : inspectText.whiteMark}</span>
        </button>
      ))}
      {white?.asked && (
        <button
          type="button"
          className="white-tap"
          aria-label={inspectText.whiteTap}
          // A key presses it at no place: then the ring begins at the top and walks from there.
          onClick={(event) =>
            white.onPlace(event.detail === 0 ? [photo.widthPx / 2, photo.heightPx / 20] : placeOf(event))
          }
        />
      )}
      {held !== null && rings[held] && <Lens photo={photo} picture={picture} at={rings[held]} />}
    </div>
  );
}

/** Light upon dark, so that the line shows on any picture; the first side, along which the number reads, is thicker. */
function Outline({ corners, photo }: Pick<Picked, "corners" | "photo">) {
  const points = corners.map((corner) => corner.join(",")).join(" ");
  const [[ax, ay], [bx, by]] = corners;
  return (
    <svg viewBox={`0 0 ${photo.widthPx} ${photo.heightPx}`} aria-hidden="true">
      <polygon className="corner-under" points={points} />
      <polygon className="corner-line" points={points} />
      <line className="corner-first" x1={ax} y1={ay} x2={bx} y2={by} />
    </svg>
  );
}
