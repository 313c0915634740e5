/** Treatments of the new trial: one control, finishes and bare witnesses, each a route of steps. */
import { useId } from "react";
import type { RouteStep, TreatmentRole } from "../../core/trial/trial-record.ts";
import { washPrimerWarning } from "../../core/trial/wash-primer-warning.ts";
import { ChoiceField, NumberField, TextField } from "../parts/field.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { anyTreatment, type TreatmentForm } from "./trial-form.ts";

const text = newTrialText.treatments;
const roles = (["control", "finish", "witness"] as const).map((value) => ({ value, label: text.roleShort[value] }));

export function TreatmentsPart({
  treatments,
  onChange,
  errorAt,
}: {
  treatments: TreatmentForm[];
  onChange: (treatments: TreatmentForm[]) => void;
  errorAt: (pointer: string) => string | null;
}) {
  const stepNames = useId();
  const replace = (at: number, one: TreatmentForm) =>
    onChange(treatments.map((old, index) => (index === at ? one : old)));
  const addAfterFinishes = (one: TreatmentForm) => {
    const witnessesFrom = treatments.findIndex((old) => old.role === "witness");
    const at = one.role === "witness" || witnessesFrom < 0 ? treatments.length : witnessesFrom;
    onChange(treatments.toSpliced(at, 0, one));
  };
  const warning = washPrimerWarning(treatments);
  return (
    <section aria-labelledby="treatments-title">
      <h2 id="treatments-title">{text.title}</h2>
      <p className="lead">{text.explain}</p>
      <datalist id={stepNames}>
        {newTrialText.usualSteps.map((step) => (
          <option key={step} value={step} />
        ))}
      </datalist>
      {treatments.map((one, at) => (
        <TreatmentCard
          // biome-ignore lint/suspicious/noArrayIndexKey: a treatment without a name yet has only its place
          key={at}
          nth={at + 1}
          treatment={one}
          stepNames={stepNames}
          onChange={(changed) => replace(at, changed)}
          onRemove={treatments.length > 1 ? () => onChange(treatments.toSpliced(at, 1)) : null}
          errorAt={(inner) => errorAt(`/draft/treatments/${at}${inner}`)}
        />
      ))}
      {warning && <p>⚑ {warning}</p>}
      <div className="actions">
        <button
          type="button"
          className="second"
          onClick={() =>
            addAfterFinishes(
              anyTreatment(
                "finish",
                treatments.findLast((one) => one.role !== "witness"),
              ),
            )
          }
        >
          {text.add}
        </button>
        {!treatments.some((one) => one.role === "witness") && (
          <button
            type="button"
            className="quiet"
            onClick={() => addAfterFinishes({ ...anyTreatment("witness"), coupons: "2", route: [] })}
          >
            {text.addWitness}
          </button>
        )}
        <small>{text.addLike}</small>
      </div>
    </section>
  );
}

function TreatmentCard({
  nth,
  treatment,
  stepNames,
  onChange,
  onRemove,
  errorAt,
}: {
  nth: number;
  treatment: TreatmentForm;
  stepNames: string;
  onChange: (treatment: TreatmentForm) => void;
  onRemove: (() => void) | null;
  errorAt: (inner: string) => string | null;
}) {
  const change = (part: Partial<TreatmentForm>) => onChange({ ...treatment, ...part });
  return (
    <fieldset className={`treatment-card role-${treatment.role}`}>
      <legend className="sr-only">{text.nth(nth)}</legend>
      <header>
        <small>{text.roles[treatment.role]}</small>
        {onRemove && (
          <button type="button" className="quiet" onClick={onRemove} aria-label={text.removeNamed(treatment.name)}>
            {text.remove}
          </button>
        )}
      </header>
      <div className="fields">
        <TextField
          label={text.name}
          value={treatment.name}
          onType={(name) => change({ name })}
          error={errorAt("/name")}
        />
        <NumberField
          label={text.coupons}
          value={treatment.coupons}
          onType={(coupons) => change({ coupons })}
          error={errorAt("/coupons")}
        />
        <ChoiceField<TreatmentRole>
          label={text.role}
          value={treatment.role}
          choices={roles}
          onChoose={(role) => change({ role })}
          error={errorAt("/role")}
        />
      </div>
      <Steps route={treatment.route} stepNames={stepNames} onChange={(route) => change({ route })} />
      {errorAt("/route") && <small className="wrong">{errorAt("/route")}</small>}
    </fieldset>
  );
}

function Steps({
  route,
  stepNames,
  onChange,
}: {
  route: RouteStep[];
  stepNames: string;
  onChange: (route: RouteStep[]) => void;
}) {
  const replace = (at: number, part: Partial<RouteStep>) =>
    onChange(route.map((step, index) => (index === at ? { ...step, ...part } : step)));
  return (
    <div>
      <p className="hint">{route.length === 0 ? text.noSteps : text.steps}</p>
      {route.map((step, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two steps of a route may have the same name
        <div className="step-row" key={at}>
          <span className="nth" aria-hidden="true">
            {at + 1}
          </span>
          <input
            aria-label={text.step(at + 1)}
            list={stepNames}
            value={step.name}
            onChange={(event) => replace(at, { name: event.target.value })}
          />
          <select
            aria-label={text.how(at + 1)}
            value={step.treated}
            onChange={(event) => replace(at, { treated: event.target.value === "together" ? "together" : "alone" })}
          >
            <option value="alone">{text.alone}</option>
            <option value="together">{text.together}</option>
          </select>
          <button
            type="button"
            className="quiet"
            aria-label={text.removeStep(at + 1)}
            onClick={() => onChange(route.toSpliced(at, 1))}
          >
            ×
          </button>
        </div>
      ))}
      <button type="button" className="quiet" onClick={() => onChange([...route, { name: "", treated: "alone" }])}>
        {text.addStep}
      </button>
    </div>
  );
}
