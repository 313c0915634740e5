/** The report's plan: who got what, how many, how they came to it. */
import { countsAsRusted } from "../core/trial/counts-as-rusted.ts";
import type { CouponPlace } from "../core/trial/coupon-place.ts";
import { standingCurves } from "../core/trial/kept-curve.ts";
import { changeWords, planCorrections } from "../core/trial/plan-changes.ts";
import type { Plan, Treatment, TrialRecord } from "../core/trial/trial-record.ts";
import { inchFromMm, type Preferences } from "../core/units.ts";
import type { FigureWidth } from "./figures/at-width.tsx";
import { KeptCurve, keptTitle } from "./figures/kept-curve.tsx";
import { valueText } from "./figures/number-text.ts";
import { reportText } from "./text.ts";

const roleWords: Record<Treatment["role"], string> = {
  control: "control",
  finish: "",
  witness: "witness, not compared",
};

export function PlanSection({
  record,
  preferences,
  width,
}: {
  record: TrialRecord;
  preferences: Preferences;
  /** Of its figures. */
  width: FigureWidth;
}) {
  const { plan } = record;
  const blocks = new Set(plan.places.map((place) => place.block).filter((block) => block !== null));
  return (
    <section>
      <h2>{reportText.plan}</h2>
      <p>
        {plan.places.length} coupons {sizeWords(plan, preferences)}, {plan.treatments.length} treatments
        {blocks.size > 1 ? `, ${blocks.size} blocks` : ""}. {allocationWords(plan)}
      </p>
      <table>
        <thead>
          <tr>
            <th>Treatment</th>
            <th>Coupons</th>
            <th>Route</th>
          </tr>
        </thead>
        <tbody>
          {plan.treatments.map((treatment) => (
            <tr key={treatment.name}>
              <td>
                {treatment.name} <span className="quiet">{roleWords[treatment.role]}</span>
              </td>
              <td>
                {plan.places
                  .filter((place) => place.treatment === treatment.name)
                  .map((place) => couponWords(record, place))
                  .join(", ")}
              </td>
              <td>{routeWords(treatment)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {lookWords(record, preferences).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <Corrections record={record} preferences={preferences} />
      <Simulated record={record} width={width} />
    </section>
  );
}

/** As it was kept with the plan: nothing is computed anew. */
function Simulated({ record, width }: { record: TrialRecord; width: FigureWidth }) {
  return standingCurves(record).map(({ kept, former }) => (
    <section key={kept.id} className="kept-curve">
      <h3>{reportText.simulated(keptTitle(kept.body))}</h3>
      <p className="quiet">{reportText.simulatedOn({ on: kept.recordedAt.slice(0, 10), by: kept.by, former })}</p>
      <KeptCurve curve={kept.body} record={record} width={width} />
    </section>
  ));
}

function Corrections({ record, preferences }: { record: TrialRecord; preferences: Preferences }) {
  return planCorrections(record).map(({ id, on, by, why, changes }) => (
    <div key={id}>
      <p>{reportText.planCorrected({ on: on.slice(0, 10), by, why })}</p>
      <ul>
        {changes
          .map((change) => changeWords(change, (mm) => mm.map((side) => lengthText(side, preferences)).join(" × ")))
          .map((said) => (
            <li key={said}>{said}</li>
          ))}
      </ul>
    </div>
  ));
}

function couponWords(record: TrialRecord, { coupon, spare, batch, keptFor }: CouponPlace): string {
  if (keptFor !== undefined) return `${coupon} (${keptFor})`;
  if (!spare && batch !== undefined) return `${coupon} (batch ${batch})`;
  if (!spare) return coupon;
  const standIn = record.standIns.find(({ body }) => body.for === coupon);
  return standIn ? `${coupon} (${standIn.body.spare} took its place)` : `${coupon} (spare)`;
}

function routeWords(treatment: Treatment): string {
  if (!treatment.route) return "not written down";
  return treatment.route
    .map((step) => (step.treated === "together" ? `${step.name} (together)` : step.name))
    .join(" → ");
}

function allocationWords(plan: Plan): string {
  if (plan.allocation.how === "drawn")
    return `Treatments were drawn by lot within blocks${plan.allocation.spread === undefined ? "" : `, the draw being repeated until there was ${plan.allocation.spread}`} (seed ${plan.allocation.seed}).`;
  if (plan.allocation.how === "assumed")
    return "How coupons came to their treatments was not written down; a lot is assumed.";
  return "Treatments were not drawn by lot.";
}

function lookWords(record: TrialRecord, preferences: Preferences): string[] {
  const { lookDays, rustThresholdPercent, edgeBandMm } = record.plan;
  const rusted = countsAsRusted(record);
  return [
    ...(lookDays.length > 0 ? [reportText.looksPlanned(lookDays)] : []),
    ...(rusted === "class" ? [reportText.rustedByClass] : []),
    ...(rusted === "percent" ? [reportText.rustedAbove(valueText(rustThresholdPercent))] : []),
    ...(rusted !== null && edgeBandMm > 0 ? [reportText.edgeBand(lengthText(edgeBandMm, preferences))] : []),
  ];
}

export function lengthText(lengthMm: number, preferences: Preferences): string {
  return preferences.length === "mm" ? `${valueText(lengthMm)} mm` : `${valueText(inchFromMm(lengthMm))} in`;
}

function sizeWords(plan: Plan, preferences: Preferences): string {
  const { lengthMm, widthMm, thicknessMm } = plan.couponSize;
  return [lengthMm, widthMm, thicknessMm].map((side) => lengthText(side, preferences)).join(" × ");
}
