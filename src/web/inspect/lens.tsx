/** A round glass over the corner being dragged, on the side where the finger is not. */
import type { Photo } from "../../api/photo.ts";
import type { Point } from "./corner-geometry.ts";

const lensPx = 132;
/** The picture in the lens is this many px wide, whatever the screen: about three times what a phone shows. */
const enlargedPx = 1280;

export function Lens({ photo, picture, at: [x, y] }: { photo: Pick<Photo, "widthPx">; picture: string; at: Point }) {
  const scale = enlargedPx / photo.widthPx;
  return (
    <div
      className={x < photo.widthPx / 2 ? "lens lens-right" : "lens lens-left"}
      aria-hidden="true"
      style={{
        width: lensPx,
        height: lensPx,
        backgroundImage: `url("${picture}")`,
        backgroundSize: `${enlargedPx}px auto`,
        backgroundPosition: `${lensPx / 2 - x * scale}px ${lensPx / 2 - y * scale}px`,
      }}
    />
  );
}
