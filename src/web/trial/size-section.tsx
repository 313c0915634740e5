/** How many coupons of each, and of what size. */

import { Link } from "wouter";
import { countsAsRusted } from "../../core/trial/counts-as-rusted.ts";
import type { CouponPlace } from "../../core/trial/coupon-place.ts";
import { draftOfPlan } from "../../core/trial/draft-of-plan.ts";
import { isReplaced } from "../../core/trial/stand-ins.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { OutlookReading } from "../outlook/outlook-reading.tsx";
import { readOutlook } from "../outlook/read-outlook.ts";
import { quantityText, sizeText } from "../parts/quantity.ts";
import { Scroll } from "../parts/scroll.tsx";
import { WhySaid } from "../parts/why.tsx";
import { usePreferences } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import { SimulatedPart } from "./simulated-part.tsx";
import { More, StageSection } from "./stage.tsx";
import { couponsByTreatment } from "./where-it-stands.ts";

const text = trialText.size;

export function SizeSection({ record }: { record: TrialRecord }) {
  const preferences = usePreferences();
  const { plan } = record;
  const { lengthMm, widthMm, thicknessMm } = plan.couponSize;
  const blocks = new Set(plan.places.flatMap((place) => (place.block === null ? [] : [place.block]))).size;
  const draft = draftOfPlan(plan);
  const read = draft && readOutlook(draft, null);
  const rusted = countsAsRusted(record);
  const isSpare = (place: CouponPlace) => place.spare && !isReplaced(record, place.coupon);
  const spares = plan.places.some(isSpare);
  return (
    <StageSection id="size" sentence={text.counts(plan.places.length, blocks)}>
      <Scroll label={text.ofEach}>
        <table className="plain">
          <thead>
            <tr>
              <th scope="col">{text.columns.treatment}</th>
              <th scope="col" className="right">
                {text.columns.coupons}
              </th>
              {spares && (
                <th scope="col" className="right">
                  {text.columns.spares}
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {couponsByTreatment(record).map(({ treatment, places }) => (
              <tr key={treatment}>
                <th scope="row">{treatment}</th>
                <td className="right">{places.filter((place) => !place.spare).length}</td>
                {spares && <td className="right">{places.filter(isSpare).length}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="lead">
        {text.coupon(sizeText([lengthMm, widthMm, thicknessMm], preferences))}{" "}
        {rusted !== null && plan.edgeBandMm > 0 && text.edge(quantityText("length", plan.edgeBandMm, preferences))}{" "}
        {rusted === "class" && text.graded}
        {rusted === "percent" && text.threshold(plan.rustThresholdPercent)}
      </p>
      {rusted !== null && plan.edgeBandMm > 0 && <WhySaid {...whyPlanText.edgeBand} />}
      {rusted === "percent" && <WhySaid {...whyPlanText.threshold} />}
      {spares && <WhySaid {...whyPlanText.spares} />}
      <div className="actions">
        <Link href={`/trials/${record.id}/plan`} className="button quiet">
          {trialText.question.correct}
        </Link>
      </div>
      {read?.outlook && (
        <More label={text.outlook}>
          <OutlookReading outlook={read.outlook} />
        </More>
      )}
      <SimulatedPart record={record} drawn={draft !== null} />
    </StageSection>
  );
}
