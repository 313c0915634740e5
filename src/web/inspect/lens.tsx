/** A round glass over the corner being dragged, on the side where the finger is not. */
import type { Photo } from "../../api/photo.ts";
import type { Point } from "./corner-geometry.ts";
import { pictureUrl } from "./measuring.ts";

const lensPx = 132;
/** The picture in the lens is this many px wide, whatever the screen: about three times what a phone shows. */
const enlargedPx = 1280;

export function Lens({ photo, at: [x, y] }: { photo: Photo; at: Point }) {
  const scale = enlargedPx / photo.widthPx;
  return (
    <div
      className={x < photo.widthPx / 2 ? "lens lens-right" : "lens lens-left"}
      aria-hidden="true"
      style={{
        width: lensPx,
        height: lensPx,
        backgroundImage: `url("${pictureUrl(photo.hash, 1280)}")`,
        backgroundSize: `${enlargedPx}px auto`,
        backgroundPosition: `${lensPx / 2 - x * scale}px ${lensPx / 2 - y * scale}px`,
      }}
    />
  );
}
