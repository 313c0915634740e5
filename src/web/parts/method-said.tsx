/** What a method's own head says of it. All heads together are large: they come when somebody asks why. */
import { methodHeads } from "../../core/method-heads.generated.ts";
import { whyText } from "../text/parts.ts";

export function MethodSaid({ method, inputs }: { method: string; inputs: readonly [string, string][] }) {
  const head = methodHeads.find((one) => one.method.split(/,\s*/).includes(method));
  return (
    <>
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
    </>
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
