/** Corrects a time to first rust that came without looks, in a table. */
import type { FirstRustTime } from "../../core/trial/trial-record.ts";
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText as text } from "../text/tests.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";

export function FirstRustForm(
  props: ObserveFormProps<FirstRustTime> & { corrects: { id: string; body: FirstRustTime } },
) {
  const { record, corrects, onWritten } = props;
  const { body } = corrects;
  return (
    <ObserveForm
      trialId={record.id}
      about="first rust"
      corrects={corrects}
      start={() => ({ left: String(body.leftDays), right: body.rightDays === null ? "" : String(body.rightDays) })}
      fill={(form) => {
        const leftDays = typedNumber(form.left);
        const rightDays = form.right.trim() === "" ? null : typedNumber(form.right);
        const rightWrong = form.right.trim() !== "" && rightDays === null;
        if (leftDays === null || rightWrong)
          return {
            missing: {
              leftDays: leftDays === null && text.needsNumber,
              rightDays: rightWrong && text.needsNumber,
            },
          };
        return { bodies: [{ ...body, leftDays, rightDays }] };
      }}
      shown={["leftDays", "rightDays"]}
      fields={({ form, change, errorAt }) => (
        <div className="fields">
          <NumberField
            label={text.leftDays}
            value={form.left}
            onType={(left) => change({ left })}
            error={errorAt("leftDays")}
          />
          <NumberField
            label={text.rightDays}
            hint={text.rightDaysHint}
            value={form.right}
            onType={(right) => change({ right })}
            error={errorAt("rightDays")}
          />
        </div>
      )}
      submit={text.keep}
      onWritten={onWritten}
    />
  );
}
