/** A coupon that is no longer out: lost, or taken down for a reason that decides how it counts. */
import { sparesFor } from "../../core/trial/stand-ins.ts";
import { type TakenDown, type TakenDownReason, takenDownReasons } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { typedWhen, WhenField, whenTyped } from "../parts/when-field.tsx";
import { trialText } from "../text/trial.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { countsDays, isGone } from "./where-it-stands.ts";

const text = trialText.outdoors;

type TakenDownForm = {
  coupon: string;
  when: string;
  reason: TakenDownReason;
  note: string;
  /** "" until the user decides otherwise: the first spare that is offered. */
  spare: string;
};
const noSpare = "none";

export function TakenDownFormPart({ record, corrects = null, onWritten }: ObserveFormProps<TakenDown>) {
  const days = countsDays(record);
  const still = record.plan.places
    .map((place) => place.coupon)
    .filter((coupon) => !isGone(record, coupon) || coupon === corrects?.body.coupon);
  const offered = ({ coupon, when }: TakenDownForm) =>
    corrects ? [] : sparesFor(record, coupon, whenTyped(when, days));
  const chosenSpare = (form: TakenDownForm) => offered(form).find((one) => form.spare === "" || form.spare === one);
  return (
    <ObserveForm
      trialId={record.id}
      about="taken down"
      corrects={corrects}
      start={(): TakenDownForm => ({
        coupon: corrects?.body.coupon ?? "",
        when: corrects ? typedWhen(corrects.body.when) : days ? "" : todayDate(),
        reason: corrects?.body.reason ?? "lost",
        note: corrects?.body.note ?? "",
        spare: "",
      })}
      fill={(form) => {
        const { coupon, reason } = form;
        const note = form.note.trim();
        const when = whenTyped(form.when, days);
        if (when === null || coupon === "")
          return { missing: { coupon: coupon === "" && text.needsCoupon, when: when === null && text.needsDate } };
        const spare = chosenSpare(form);
        const why = note === "" ? reason : note;
        return {
          bodies: [
            { kind: "taken down", coupon, when, reason, note },
            ...(spare === undefined ? [] : [{ kind: "stand-in", spare, for: coupon, why } as const]),
          ],
        };
      }}
      shown={["coupon", "when", "reason", "note"]}
      fields={({ form, change, errorAt }) => (
        <>
          <div className="fields">
            <ChoiceField
              label={text.coupon}
              value={form.coupon}
              choices={[
                { value: "", label: text.chooseCoupon },
                ...still.map((coupon) => ({ value: coupon, label: coupon })),
              ]}
              onChoose={(coupon) => change({ coupon, spare: "" })}
              error={errorAt("coupon")}
            />
            <WhenField
              label={text.on}
              countsDays={days}
              value={form.when}
              onType={(when) => change({ when })}
              error={errorAt("when")}
            />
            <ChoiceField
              label={text.reason}
              value={form.reason}
              choices={takenDownReasons.map((value) => ({ value, label: text.reasons[value] }))}
              onChoose={(reason) => change({ reason })}
              error={errorAt("reason")}
            />
            {offered(form).length > 0 && (
              <ChoiceField
                label={text.spareTakesOver}
                hint={text.spareHint}
                value={chosenSpare(form) ?? noSpare}
                choices={[
                  ...offered(form).map((spare) => ({ value: spare, label: text.spareChoice(spare) })),
                  { value: noSpare, label: text.noSpareChoice },
                ]}
                onChoose={(spare) => change({ spare })}
              />
            )}
          </div>
          <TextField label={text.note} value={form.note} onType={(note) => change({ note })} error={errorAt("note")} />
        </>
      )}
      submit={text.keepTakenDown}
      onWritten={onWritten}
    />
  );
}
