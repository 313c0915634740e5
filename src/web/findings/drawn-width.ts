/** The width in px that figures may use, measured, so that their letters keep their size on a phone and a desk. */
import { type RefObject, useLayoutEffect, useState } from "react";

const narrowestPx = 280;

export function useDrawnWidth(element: RefObject<HTMLElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null);
  useLayoutEffect(() => {
    if (!element.current) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.max(narrowestPx, Math.floor(entry.contentRect.width)));
    });
    watch.observe(element.current);
    return () => watch.disconnect();
  }, [element]);
  return width;
}
