/** Coupon size, blocks and rack of the new trial. */
import { NumberField } from "../parts/field.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { ChancePart } from "./chance-part.tsx";
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
        <NumberField
          label={text.blocks}
          hint={text.blocksHint}
          value={form.blocks}
          onType={(blocks) => change({ blocks })}
          error={errorAt("/draft/blocks")}
        />
        <NumberField
          label={text.spares}
          hint={text.sparesHint}
          value={form.sparesOfEach}
          onType={(sparesOfEach) => change({ sparesOfEach })}
          error={errorAt("/draft/sparesOfEach")}
        />
        <NumberField
          label={text.rackColumns}
          value={form.rackColumns}
          onType={(rackColumns) => change({ rackColumns })}
          error={errorAt("/draft/rackColumns")}
        />
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
        <NumberField
          label={text.edgeBand}
          unit={form.lengthUnit}
          hint={text.edgeBandHint}
          value={form.edgeBand}
          onType={(edgeBand) => change({ edgeBand })}
          error={errorAt("/draft/edgeBandMm")}
        />
        <NumberField
          label={text.threshold}
          unit="%"
          value={form.threshold}
          onType={(threshold) => change({ threshold })}
          error={errorAt("/draft/rustThresholdPercent")}
        />
      </div>
      <LayoutPart {...part} />
    </section>
  );
}
