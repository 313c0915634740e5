/** The method of a finding by name, and its "why?": formula, source and status as the head of each method says. */
import { methodHeads } from "../../core/method-heads.generated.ts";
import type { ResponseKind } from "../../core/trial/finding.ts";
import { figureText } from "./figure-text.ts";

/** The methods that a finding of each kind is made of. */
const methodsOf: Record<ResponseKind, readonly string[]> = {
  time: ["survival.turnbull", "comparison.logRankPermutation", "survival.weibullMle", "survival.timeFactor"],
  area: ["comparison.wilcoxonExact", "comparison.hodgesLehmann"],
  ordinal: ["comparison.wilcoxonExact", "comparison.hodgesLehmann"],
  continuous: ["comparison.wilcoxonExact"],
  binary: ["comparison.wilcoxonExact"],
};

/** `withWhy` false: a printed report describes its methods once, at its end. */
export function MethodNote({ kind, method, withWhy }: { kind: ResponseKind; method: string; withWhy: boolean }) {
  const heads = methodHeads.filter((head) => headIds(head.method).some((id) => methodsOf[kind].includes(id)));
  return (
    <div className="fig-method">
      <p>
        {figureText.method}: {method}
      </p>
      {withWhy && heads.length > 0 && (
        <details>
          <summary>{figureText.why}</summary>
          {heads.map((head) => (
            <dl key={head.method}>
              <dt>{head.summary}</dt>
              <dd>
                {figureText.formula}: {head.formula}
              </dd>
              <dd>
                {figureText.source}: {head.source} ({figureText.status.toLowerCase()}: {head.status})
              </dd>
              <dd>
                {figureText.holds}: {head.holds}
              </dd>
            </dl>
          ))}
        </details>
      )}
    </div>
  );
}

/** One head may serve two ids: "a.b, c.d". */
const headIds = (ids: string) => ids.split(",").map((id) => id.trim());
