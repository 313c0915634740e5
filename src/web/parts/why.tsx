/** The small "why?" beside a computed number: formula, inputs, source and status, from the method's own head. */
import { lazy, Suspense, useState } from "react";
import { whyText } from "../text/parts.ts";

const MethodSaid = lazy(async () => ({ default: (await import("./method-said.tsx")).MethodSaid }));

export function Why({
  of,
  asked,
  method,
  inputs = [],
}: {
  of: string;
  /** Where several stand beside each other, which of them this is. */
  asked?: string;
  method: string;
  inputs?: readonly [string, string][];
}) {
  const [wasOpened, setWasOpened] = useState(false);
  return (
    <details className="why" onToggle={() => setWasOpened(true)}>
      <summary aria-label={whyText.about(of, asked)}>{asked ?? whyText.why}</summary>
      <div className="why-sheet">
        <Suspense>{wasOpened && <MethodSaid method={method} inputs={inputs} />}</Suspense>
      </div>
    </details>
  );
}

/** The same place for a number whose reason is a sentence and not a published method. */
export function WhySaid({ of, asked, said }: { of: string; asked?: string; said: readonly string[] }) {
  return (
    <details className="why">
      <summary aria-label={whyText.aboutSaid(of, asked)}>{asked ?? whyText.why}</summary>
      <div className="why-sheet">
        {said.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
    </details>
  );
}
