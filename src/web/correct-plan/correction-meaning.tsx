/** What a corrected plan changes, and what that means, before it is kept. */
import { changeWords } from "../../core/trial/plan-changes.ts";
import { sizeText } from "../parts/quantity.ts";
import { usePreferences } from "../shop/queries.ts";
import { declaredText } from "../text/asked.ts";
import { correctPlanText as text } from "../text/correct-plan.ts";
import type { PlanRead } from "./plan-read.ts";

export function CorrectionMeaning({ read }: { read: PlanRead }) {
  const preferences = usePreferences();
  return (
    <aside className="outlook" aria-labelledby="meaning-title" aria-live="polite">
      <h2 id="meaning-title">{text.means}</h2>
      {read.plan === null && <p>{read.refusal}</p>}
      {read.plan !== null && (
        <>
          <ul>
            {read.means.changes.map((change) => {
              const said = changeWords(change, (mm) => sizeText(mm, preferences));
              return <li key={said}>{said}.</li>;
            })}
          </ul>
          {read.means.newLot && <p>{text.newLot}</p>}
          {read.means.madeExploratory.map((one) => (
            <p key={declaredText(one)}>
              <strong>{text.exploratory(declaredText(one))}</strong>
            </p>
          ))}
          {read.means.madeExploratory.length === 0 && <p>{text.noMark}</p>}
        </>
      )}
    </aside>
  );
}
