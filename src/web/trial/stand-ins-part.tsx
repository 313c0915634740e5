/** Spares that took a place over, and the form that lets one do so. */
import { sparesFor, withoutStandIn } from "../../core/trial/stand-ins.ts";
import type { StandIn, TrialRecord } from "../../core/trial/trial-record.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { trialText } from "../text/trial.ts";
import { ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { RecordRow } from "./record-row.tsx";
import { More } from "./stage.tsx";

const text = trialText.rack;

export function StandIns({ record }: { record: TrialRecord }) {
  return (
    <>
      <ul className="bare">
        {record.standIns.map((one) => (
          <RecordRow
            key={one.id}
            trialId={record.id}
            observed={one}
            form={(onWritten) => <StandInForm record={record} corrects={one} onWritten={onWritten} />}
          >
            <p>{text.standInWas(one.body.spare, one.body.for, one.body.why)}</p>
          </RecordRow>
        ))}
      </ul>
      {replaceable(record).length > 0 && (
        <More label={text.standIn}>
          <p>{text.standInExplain}</p>
          <StandInForm record={record} />
        </More>
      )}
    </>
  );
}

/** Coupons whose place a spare could still take. */
const replaceable = (record: TrialRecord): string[] =>
  record.plan.places.map((place) => place.coupon).filter((coupon) => sparesFor(record, coupon).length > 0);

function StandInForm({ record, corrects = null, onWritten }: ObserveFormProps<StandIn>) {
  const now = corrects?.body;
  const before = corrects ? withoutStandIn(record, corrects.id) : record;
  return (
    <ObserveForm
      trialId={record.id}
      about="stand-in"
      corrects={corrects}
      start={() => ({ lost: now?.for ?? "", spare: now?.spare ?? "", because: now?.why ?? "" })}
      fill={({ lost, spare, because }) => {
        const why = because.trim();
        if (lost === "" || spare === "" || why === "")
          return {
            missing: {
              for: lost === "" && text.chooseLost,
              spare: spare === "" && text.chooseSpare,
              why: why === "" && text.needsBecause,
            },
          };
        return { bodies: [{ kind: "stand-in", spare, for: lost, why }] };
      }}
      shown={["for", "spare", "why"]}
      fields={({ form, change, errorAt }) => (
        <div className="fields">
          <ChoiceField
            label={text.lostCoupon}
            value={form.lost}
            choices={[
              { value: "", label: text.chooseLost },
              ...replaceable(before).map((coupon) => ({ value: coupon, label: coupon })),
            ]}
            onChoose={(lost) => change({ lost, spare: sparesFor(before, lost)[0] ?? "" })}
            error={errorAt("for")}
          />
          <ChoiceField
            label={text.spareNumber}
            value={form.spare}
            choices={[
              { value: "", label: text.chooseSpare },
              ...sparesFor(before, form.lost).map((spare) => ({ value: spare, label: spare })),
            ]}
            onChoose={(spare) => change({ spare })}
            error={errorAt("spare")}
          />
          <TextField
            label={text.because}
            value={form.because}
            onType={(because) => change({ because })}
            error={errorAt("why")}
          />
        </div>
      )}
      submit={text.keepStandIn}
      onWritten={onWritten}
    />
  );
}
