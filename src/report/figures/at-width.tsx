/** A figure as wide as it is shown, so that its letters keep their size. */
import type { ReactNode } from "react";

/**
 * The page measures its room and draws once. A document knows no screen: it holds a figure for paper and desk and a narrow one
 * for a phone, and its style sheet shows one of them.
 */
export type FigureWidth = number | { paperPx: number; phonePx: number };

export function AtWidth({ width, children: draw }: { width: FigureWidth; children: (widthPx: number) => ReactNode }) {
  if (typeof width === "number") return draw(width);
  return (
    <>
      <div className="fig-on-paper">{draw(width.paperPx)}</div>
      <div className="fig-on-phone">{draw(width.phonePx)}</div>
    </>
  );
}
