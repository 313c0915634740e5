/** A table wider than a phone scrolls by itself there, and keyboards can scroll it too; paper shows it whole. */
import type { ReactNode } from "react";

export function WideTable({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: without it a keyboard could not reach what lies beyond the edge
    <section className="wide-table" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
