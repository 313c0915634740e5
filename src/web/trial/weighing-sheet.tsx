/** All coupons on one sheet, one state at a time: what the balance showed, and what it says so far. */
import { useState } from "react";
import type { TrialRecord, Weighing } from "../../core/trial/trial-record.ts";
import { statesOf, type WeighedAs, type WeighedState, weighedStates } from "../../core/trial/weighed-as.ts";
import { couponsToWeigh } from "../../core/trial/weighed-coupons.ts";
import { balanceRefusal, couponAreaCm2, weighedResults, weighingGroups } from "../../core/trial/weighing.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, LongTextField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { useShop } from "../shop/queries.ts";
import { weighingText as text } from "../text/weighing.ts";
import { BalanceForm } from "./balance-form.tsx";
import { type Filled, type FormFields, ObserveForm } from "./observe-form.tsx";
import { More } from "./stage.tsx";

type Form = {
  state: WeighedState;
  together: string;
  date: string;
  /** What was typed, by the first coupon of a group. */
  masses: Record<string, string>;
  note: string;
  knew: boolean;
};
const shown = ["balanceMg", "massG", "when", "together"] as const;
type Field = (typeof shown)[number];
type Asked = { name: string; as: WeighedAs };

export const weighedQuestions = ({ plan }: TrialRecord): Asked[] =>
  plan.questions.flatMap((one) =>
    one.response === "value" && one.weighed ? [{ name: one.name, as: one.weighed }] : [],
  );

export function WeighingSheet({ record }: { record: TrialRecord }) {
  const asked = weighedQuestions(record);
  const balanceMg = useShop().data?.balanceMg ?? null;
  const [grouped, setGrouped] = useState(false);
  const states = weighedStates.filter((state) => asked.some(({ as }) => statesOf[as].includes(state)));
  const weighsCoating = asked.some(({ as }) => as === "gain" || as === "stripping");
  const refusal = (form: Sheet) =>
    balanceMg === null || !weighsCoating
      ? null
      : balanceRefusal({ balanceMg, areaCm2: couponAreaCm2(record), coupons: fewestTogether(record, form) });
  return (
    <>
      <p className="lead">{text.sheet}</p>
      <Results record={record} asked={asked} />
      <ObserveForm
        trialId={record.id}
        about="weighing"
        start={() => startingForm(record, states)}
        fill={(form) => filled(form, { record, balanceMg, refusal: refusal(form) })}
        shown={shown}
        fields={(drawn) => (
          <SheetFields
            record={record}
            states={states}
            refusal={refusal(drawn.form)}
            namesGroups={record.unblinded || grouped}
            onNameGroups={() => setGrouped(true)}
            {...drawn}
          />
        )}
        submit={text.keep}
      />
    </>
  );
}

/** The first state in which somebody is still to be weighed; as many together as before. */
function startingForm(record: TrialRecord, states: readonly WeighedState[]): Form {
  const state = states.find((one) => rowsOf(record, { state: one, together: "1" }).length > 0);
  const together = Math.max(1, ...record.weighings.map(({ body }) => 1 + body.with.length));
  return {
    state: state ?? states[0]!,
    together: String(together),
    date: todayDate(),
    masses: {},
    note: "",
    knew: false,
  };
}

type Known = { record: TrialRecord; balanceMg: number | null; refusal: string | null };

function filled(form: Form, { record, balanceMg, refusal }: Known): Filled<Field> {
  const typed = rowsOf(record, form).flatMap((coupons) => {
    const mass = form.masses[coupons[0]!]?.trim() ?? "";
    return mass === "" ? [] : [{ coupons, massG: typedNumber(mass) }];
  });
  const wrong = typed.length === 0 || typed.some(({ massG }) => massG === null);
  if (balanceMg === null || refusal !== null || wrong || form.date === "")
    return {
      missing: {
        balanceMg: balanceMg === null && text.needsBalance,
        together: refusal ?? false,
        massG: wrong && text.needsMass,
        when: form.date === "" && text.needsDate,
      },
    };
  const bodies = typed.flatMap(({ coupons: [coupon, ...others], massG }): Weighing[] =>
    massG === null
      ? []
      : [
          {
            kind: "weighing",
            coupon: coupon!,
            with: others,
            state: form.state,
            massG,
            balanceMg,
            when: { date: form.date },
            blind: !record.unblinded && !form.knew,
            note: form.note.trim(),
          },
        ],
  );
  return { bodies };
}

/** A treatment with fewer coupons than are to hang together is weighed with what it has. */
const fewestTogether = (record: TrialRecord, form: Sheet): number =>
  Math.min(...groupsOf(record, form).map(({ length }) => length));

type Sheet = Pick<Form, "state" | "together">;
const groupsOf = (record: TrialRecord, { state, together }: Sheet): string[][] => {
  const asked = couponsToWeigh(record.plan, state);
  return weighingGroups(record, Number(together), asked).filter((coupons) => coupons.some((one) => asked.has(one)));
};

/** Who is still to be weighed in this state. */
function rowsOf(record: TrialRecord, form: Sheet): string[][] {
  const done = new Set(record.weighings.flatMap(({ body }) => (body.state === form.state ? [body.coupon] : [])));
  return groupsOf(record, form).filter(([first]) => !done.has(first!));
}

type Drawn = {
  record: TrialRecord;
  states: readonly WeighedState[];
  refusal: string | null;
  /** Who hangs with whom may be read: the trial is closed, or the weigher said so. */
  namesGroups: boolean;
  onNameGroups: () => void;
} & FormFields<Form, Field>;

function SheetFields(drawn: Drawn) {
  const { record, states, refusal, form, change, errorAt } = drawn;
  const rows = rowsOf(record, form);
  const done = record.weighings.filter(({ body }) => body.state === form.state).length;
  const massWrong = errorAt("massG");
  return (
    <>
      <BalanceForm lacking={errorAt("balanceMg")} />
      <div className="fields">
        <ChoiceField
          label={text.together}
          hint={text.area(couponAreaCm2(record).toFixed(1))}
          value={form.together}
          choices={[1, 2, 3, 4, 5, 6].map((n) => ({ value: String(n), label: n === 1 ? text.one : text.several(n) }))}
          onChoose={(together) => change({ together })}
          error={refusal}
        />
        <ChoiceField
          label={text.state}
          value={form.state}
          choices={states.map((value) => ({ value, label: text.states[value] }))}
          onChoose={(state) => change({ state, masses: {} })}
        />
        <TextField
          label={text.date}
          type="date"
          value={form.date}
          onType={(date) => change({ date })}
          error={errorAt("when")}
        />
      </div>
      {form.state === "stripped" && <p className="trouble">{text.stripping}</p>}
      {done > 0 && <p>{text.done(done)}</p>}
      <MassFields {...drawn} rows={rows} />
      {massWrong && <p className="wrong">{massWrong}</p>}
      <LongTextField label={text.note} rows={2} value={form.note} onType={(note) => change({ note })} />
      {!record.unblinded && <TickField label={text.knew} ticked={form.knew} onTick={(knew) => change({ knew })} />}
    </>
  );
}

/** Hung together are coupons of one treatment: that is not read in passing while the trial is blind. */
function MassFields({ rows, namesGroups, onNameGroups, form, change }: Drawn & { rows: string[][] }) {
  if (!namesGroups && rows.some(({ length }) => length > 1))
    return (
      <div className="waiting">
        <p>{text.groupsTell}</p>
        <button type="button" className="second wet" onClick={onNameGroups}>
          {text.nameGroups}
        </button>
      </div>
    );
  return (
    <div className="fields">
      {rows.map((coupons) => (
        <NumberField
          key={coupons.join()}
          label={text.coupons(coupons)}
          unit="g"
          value={form.masses[coupons[0]!] ?? ""}
          onType={(mass) => change({ masses: { ...form.masses, [coupons[0]!]: mass } })}
        />
      ))}
    </div>
  );
}

function Results({ record, asked }: { record: TrialRecord; asked: readonly Asked[] }) {
  return asked.map(({ name, as }) => {
    const results = weighedResults(record, as).filter(({ standing }) => standing !== "waiting");
    if (results.length === 0) return null;
    const known = results.filter(({ standing }) => standing === "known").length;
    const list = (
      <ul className="bare">
        {results.map(({ coupon, sentence }) => (
          <li key={coupon}>{text.result(coupon, sentence)}</li>
        ))}
      </ul>
    );
    return (
      <div key={name}>
        <h3>{name}</h3>
        <p>{text.weighedOut(known, results.length - known)}</p>
        {record.unblinded ? list : <More label={text.whatTheySay}>{list}</More>}
      </div>
    );
  });
}
