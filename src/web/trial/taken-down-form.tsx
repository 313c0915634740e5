/** A coupon that is no longer out: lost, or taken down for a reason that decides how it counts. */
import { type TakenDown, type TakenDownReason, takenDownReasons } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { typedWhen, WhenField, whenTyped } from "../parts/when-field.tsx";
import { trialText } from "../text/trial.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { countsDays, isGone } from "./where-it-stands.ts";

const text = trialText.outdoors;

type TakenDownForm = { coupon: string; when: string; reason: TakenDownReason; note: string };

export function TakenDownFormPart({ record, corrects = null, onWritten }: ObserveFormProps<TakenDown>) {
  const days = countsDays(record);
  const still = record.plan.places
    .map((place) => place.coupon)
    .filter((coupon) => !isGone(record, coupon) || coupon === corrects?.body.coupon);
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
      })}
      fill={({ coupon, reason, note, when: typed }) => {
        const when = whenTyped(typed, days);
        if (when === null || coupon === "")
          return { missing: { coupon: coupon === "" && text.needsCoupon, when: when === null && text.needsDate } };
        return { bodies: [{ kind: "taken down", coupon, when, reason, note: note.trim() }] };
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
              onChoose={(coupon) => change({ coupon })}
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
          </div>
          <TextField label={text.note} value={form.note} onType={(note) => change({ note })} error={errorAt("note")} />
        </>
      )}
      submit={text.keepTakenDown}
      onWritten={onWritten}
    />
  );
}
