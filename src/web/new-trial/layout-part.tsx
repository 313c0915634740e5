/** How the trial is laid out beyond blocks and a rack: batches, small blocks, a spread draw, coupons that a test uses up. */
import { NumberField, TickField } from "../parts/field.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { batchStepsOf, type FormPart, takesSmallBlocks } from "./trial-form.ts";

const text = newTrialText.layout;

export function LayoutPart({ form, change, errorAt }: FormPart) {
  const steps = batchStepsOf(form);
  return (
    <details className="more" open={form.spread || isMore(form.batchesOfEach, 1) || isMore(form.tapeCoupons, 0)}>
      <summary>{text.title}</summary>
      <div className="fields">
        {steps.length > 0 && (
          <NumberField
            label={text.batches(steps)}
            hint={text.batchesHint}
            value={form.batchesOfEach}
            onType={(batchesOfEach) => change({ batchesOfEach })}
            error={errorAt("/draft/batchesOfEach")}
          />
        )}
        {takesSmallBlocks(form) && (
          <NumberField
            label={text.blockSize}
            hint={text.blockSizeHint}
            value={form.blockSize}
            onType={(blockSize) => change({ blockSize })}
            error={errorAt("/draft/blockSize")}
          />
        )}
        <NumberField
          label={text.tape}
          hint={text.testsHint}
          value={form.tapeCoupons}
          onType={(tapeCoupons) => change({ tapeCoupons })}
          error={errorAt("/draft/testCoupons/tape")}
        />
        <NumberField
          label={text.stripped}
          value={form.strippedCoupons}
          onType={(strippedCoupons) => change({ strippedCoupons })}
          error={errorAt("/draft/testCoupons/stripped")}
        />
      </div>
      <TickField label={text.spread} ticked={form.spread} onTick={(spread) => change({ spread })} />
      <small className="hint">{text.spreadHint}</small>
    </details>
  );
}

const isMore = (typed: string, than: number): boolean => Number(typed) > than;
