/** Coupon size, blocks and rack of the new trial. */
import { NumberField } from "../parts/field.tsx";
import { WhySaid } from "../parts/why.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import { ChancePart } from "./chance-part.tsx";
import { CouponFields } from "./coupon-fields.tsx";
import { LayoutPart } from "./layout-part.tsx";
import type { FormPart } from "./trial-form.ts";

const text = newTrialText.size;

export function SizePart(part: FormPart) {
  const { form, change, errorAt } = part;
  return (
    <section aria-labelledby="size-title">
      <h2 id="size-title">{text.title}</h2>
      <ChancePart {...part} />
      <div className="fields">
        <div>
          <NumberField
            label={text.blocks}
            hint={text.blocksHint}
            value={form.blocks}
            onType={(blocks) => change({ blocks })}
            error={errorAt("/draft/blocks")}
          />
          <WhySaid {...whyPlanText.blocks} />
        </div>
        <div>
          <NumberField
            label={text.spares}
            hint={text.sparesHint}
            value={form.sparesOfEach}
            onType={(sparesOfEach) => change({ sparesOfEach })}
            error={errorAt("/draft/sparesOfEach")}
          />
          <WhySaid {...whyPlanText.spares} />
        </div>
        <NumberField
          label={text.rackColumns}
          value={form.rackColumns}
          onType={(rackColumns) => change({ rackColumns })}
          error={errorAt("/draft/rackColumns")}
        />
        <CouponFields {...part} />
      </div>
      <LayoutPart {...part} />
    </section>
  );
}
