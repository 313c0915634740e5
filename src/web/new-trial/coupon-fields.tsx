/** How large a coupon is, what of it counts as edge, and when its face counts as rusted. */
import { NumberField } from "../parts/field.tsx";
import { WhySaid } from "../parts/why.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import type { FormPart } from "./trial-form.ts";

const text = newTrialText.size;

export function CouponFields({ form, change, errorAt }: FormPart) {
  return (
    <>
      <NumberField
        label={text.length}
        unit={form.lengthUnit}
        value={form.couponLength}
        onType={(couponLength) => change({ couponLength })}
        error={errorAt("/draft/couponSize/lengthMm")}
      />
      <NumberField
        label={text.width}
        unit={form.lengthUnit}
        value={form.couponWidth}
        onType={(couponWidth) => change({ couponWidth })}
        error={errorAt("/draft/couponSize/widthMm")}
      />
      <NumberField
        label={text.thickness}
        unit={form.lengthUnit}
        value={form.couponThickness}
        onType={(couponThickness) => change({ couponThickness })}
        error={errorAt("/draft/couponSize/thicknessMm")}
      />
      <div>
        <NumberField
          label={text.edgeBand}
          unit={form.lengthUnit}
          hint={text.edgeBandHint}
          value={form.edgeBand}
          onType={(edgeBand) => change({ edgeBand })}
          error={errorAt("/draft/edgeBandMm")}
        />
        <WhySaid {...whyPlanText.edgeBand} />
      </div>
      <div>
        <NumberField
          label={text.threshold}
          unit="%"
          value={form.threshold}
          onType={(threshold) => change({ threshold })}
          error={errorAt("/draft/rustThresholdPercent")}
        />
        <WhySaid {...whyPlanText.threshold} />
      </div>
    </>
  );
}
