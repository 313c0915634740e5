/** What may be wider than a phone: it scrolls by itself, and keyboards can scroll it too. */
import type { ReactNode } from "react";

export function Scroll({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: without it a keyboard could not reach what lies beyond the edge
    <section className="scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
