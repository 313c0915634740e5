/** A coupon that is no longer out: lost, or taken down for a reason that decides how it counts. */
import {
  type Observed,
  type TakenDown,
  type TakenDownReason,
  type TrialRecord,
  takenDownReasons,
} from "../../core/trial/trial-record.ts";
import { useDraft } from "../keep/draft.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { typedWhen, WhenField, whenTyped } from "../parts/when-field.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { trialText } from "../text/trial.ts";
import { type Filled, ObserveForm } from "./observe-form.tsx";
import { countsDays, isGone } from "./where-it-stands.ts";

const text = trialText.outdoors;

type TakenDownForm = { coupon: string; when: string; reason: TakenDownReason; note: string; why: string };
type Field = "coupon" | "when";

export function TakenDownFormPart({
  record,
  corrects = null,
  onWritten,
}: {
  record: TrialRecord;
  corrects?: Observed<TakenDown> | null;
  onWritten?: (() => void) | undefined;
}) {
  const days = countsDays(record);
  const draftKey = `taken down ${record.id} ${corrects?.id ?? "new"}`;
  const draft = useDraft<TakenDownForm>(draftKey, () => ({
    coupon: corrects?.body.coupon ?? "",
    when: corrects ? typedWhen(corrects.body.when) : days ? "" : todayDate(),
    reason: corrects?.body.reason ?? "lost",
    note: corrects?.body.note ?? "",
    why: "",
  }));
  const { form, change } = draft;
  const still = record.plan.places
    .map((place) => place.coupon)
    .filter((coupon) => !isGone(record, coupon) || coupon === corrects?.body.coupon);
  const fill = (): Filled<Field> => {
    const when = whenTyped(form.when, days);
    const missing: Partial<Record<Field, string>> = {};
    if (form.coupon === "") missing.coupon = text.needsCoupon;
    if (when === null) missing.when = text.needsDate;
    if (when === null || form.coupon === "") return { missing };
    return { bodies: [{ kind: "taken down", coupon: form.coupon, when, reason: form.reason, note: form.note.trim() }] };
  };
  return (
    <ObserveForm
      trialId={record.id}
      draftKey={draftKey}
      draft={draft}
      corrects={corrects}
      fill={fill}
      submit={text.keepTakenDown}
      shown={["/body/coupon", "/body/when", "/body/reason", "/body/note"]}
      onWritten={onWritten}
      fields={(missing, error) => (
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
              error={missing.coupon ?? errorAt(error, "/body/coupon")}
            />
            <WhenField
              label={text.on}
              countsDays={days}
              value={form.when}
              onType={(when) => change({ when })}
              error={missing.when ?? errorAt(error, "/body/when")}
            />
            <ChoiceField
              label={text.reason}
              value={form.reason}
              choices={takenDownReasons.map((value) => ({ value, label: text.reasons[value] }))}
              onChoose={(reason) => change({ reason })}
              error={errorAt(error, "/body/reason")}
            />
          </div>
          <TextField
            label={text.note}
            value={form.note}
            onType={(note) => change({ note })}
            error={errorAt(error, "/body/note")}
          />
        </>
      )}
    />
  );
}
