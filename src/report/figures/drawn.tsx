/** A figure with the words above it. In a document, drawn for paper, it scrolls by itself on a phone, and keyboards can scroll it too. */
import type { ReactNode } from "react";

export function Drawn({ label, inDocument, children }: { label: string; inDocument: boolean; children: ReactNode }) {
  if (!inDocument) return <div className="fig-drawn">{children}</div>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: without it a keyboard could not reach what lies beyond the edge
    <section className="fig-drawn" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
