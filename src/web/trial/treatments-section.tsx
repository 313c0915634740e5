/** The treatments as routes side by side; the control is named and the bare witnesses stand apart. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { washPrimerWarning } from "../../core/trial/wash-primer-warning.ts";
import { RoutesFigure } from "../../report/figures/routes-figure.tsx";
import { trialText } from "../text/trial.ts";
import { StageSection } from "./stage.tsx";

const text = trialText.treatments;

export function TreatmentsSection({ record: { plan } }: { record: TrialRecord }) {
  const control = plan.treatments.find((one) => one.role === "control");
  const compared = plan.treatments.filter((one) => one.role !== "witness");
  const routes = compared.flatMap(({ name, route }) => (route === null ? [] : [{ treatment: name, steps: route }]));
  const unknown = compared.filter((one) => one.route === null).map((one) => one.name);
  const warning = washPrimerWarning(plan.treatments);
  return (
    <StageSection id="treatments" sentence={control ? text.control(control.name) : text.noControl}>
      {routes.length > 0 && <RoutesFigure routes={routes} label={text.figure} />}
      {warning && <p>⚑ {warning}</p>}
      {unknown.length > 0 && <p>{text.unknown(unknown)}</p>}
      {plan.treatments
        .filter((one) => one.role === "witness")
        .map((one) => (
          <p key={one.name}>
            {text.witness(one.name, plan.places.filter((place) => place.treatment === one.name).length)}
            {one.route && one.route.length > 0 && ` ${text.steps(one.route.map((step) => step.name))}`}
          </p>
        ))}
    </StageSection>
  );
}
