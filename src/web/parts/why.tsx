/** The small "why?" beside a computed number: formula, inputs, source and status, from the method's own head. */
import { methodHeads } from "../../core/method-heads.generated.ts";
import { whyText } from "../text/parts.ts";

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
  const head = methodHeads.find((one) => one.method.split(/,\s*/).includes(method));
  return (
    <details className="why">
      <summary aria-label={whyText.about(of, asked)}>{asked ?? whyText.why}</summary>
      <div className="why-sheet">
        <p>{head ? head.summary : whyText.noHead(method)}</p>
        <dl>
          {head &&
            (["formula", "units", "source", "status", "holds", "refuses"] as const).map((field) => (
              <WhyRow key={field} term={whyText.fields[field]} said={head[field]} />
            ))}
          {inputs.map(([term, said]) => (
            <WhyRow key={term} term={term} said={said} />
          ))}
        </dl>
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

function WhyRow({ term, said }: { term: string; said: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{said}</dd>
    </div>
  );
}
