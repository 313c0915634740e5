/** A plate of known rust, drawn. On request what counts as rust is marked. */
import { useEffect, useMemo, useRef } from "react";
import { type PlateRecipe, platePx, rustPlate } from "../../core/rating/rust-plate.ts";
import { eyeText } from "../text/eye.ts";

export function PlatePicture({ recipe, marked }: { recipe: PlateRecipe; marked: boolean }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { seed, rustedPixels, ground } = recipe;
  const plate = useMemo(() => rustPlate({ seed, rustedPixels, ground }), [seed, rustedPixels, ground]);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context) return;
    const picture = context.createImageData(platePx.widthPx, platePx.heightPx);
    for (let at = 0; at < plate.rust.length; at++) {
      // Magenta is no colour of rust or steel.
      const shown = marked && plate.rust[at] === 1 ? [255, 0, 220] : plate.rgb.subarray(at * 3, at * 3 + 3);
      picture.data.set([...shown, 255], at * 4);
    }
    context.putImageData(picture, 0, 0);
  }, [plate, marked]);
  return (
    <canvas
      ref={canvas}
      className="eye-plate"
      width={platePx.widthPx}
      height={platePx.heightPx}
      role="img"
      aria-label={eyeText.picture}
    />
  );
}
