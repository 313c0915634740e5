/** The rack as it hangs, labels and map to print, and (folded away from those who look) who gets what. */
import { Link } from "wouter";
import { type StepOrder, stepOrders } from "../../core/trial/step-orders.ts";
import type { Plan, TrialRecord } from "../../core/trial/trial-record.ts";
import { RackFigure } from "../../report/figures/rack-figure.tsx";
import { Scroll } from "../parts/scroll.tsx";
import { WhySaid } from "../parts/why.tsx";
import { trialText } from "../text/trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import { More, StageSection } from "./stage.tsx";
import { StandIns } from "./stand-ins-part.tsx";
import { couponsByTreatment, rackOf } from "./where-it-stands.ts";

const text = trialText.rack;

export function RackSection({ record }: { record: TrialRecord }) {
  const rack = rackOf(record);
  const orders = stepOrders(record.plan);
  const rows = new Set(rack?.map((one) => one.row)).size;
  return (
    <StageSection id="rack" sentence={rack ? text.sentence(rows, rack.length) : text.none}>
      <p className="lead">{allocation(record.plan)}</p>
      {record.plan.allocation.how === "drawn" && <WhySaid {...whyPlanText.blocks} />}
      {rack && (
        <>
          <Scroll label={text.figure}>
            <RackFigure coupons={rack} label={text.figure} />
          </Scroll>
          <p>
            <small>{text.legend}</small>
          </p>
        </>
      )}
      <div className="actions">
        <Link href={`/trials/${record.id}/labels`} className="button second">
          {text.labels}
        </Link>
        <Link href={`/card/${record.id}`} className="button second">
          {text.card}
        </Link>
        {rack && (
          <Link href={`/trials/${record.id}/rack-map`} className="button second">
            {text.map}
          </Link>
        )}
      </div>
      <StandIns record={record} />
      <More label={text.whoGetsWhat}>
        <WhoGetsWhat record={record} />
      </More>
      {orders.length > 0 && (
        <More label={text.orders}>
          <StepOrders orders={orders} />
        </More>
      )}
    </StageSection>
  );
}

function StepOrders({ orders }: { orders: readonly StepOrder[] }) {
  return (
    <>
      <p>{text.ordersExplain}</p>
      <Scroll label={text.orders}>
        <table className="plain">
          <tbody>
            {orders.map(({ step, treated, goes }) => (
              <tr key={step}>
                <th scope="row">{text.stepOrder(step, treated === "together")}</th>
                <td>
                  {treated === "alone" ? (
                    <GoList coupons={goes.flatMap((go) => go.coupons)} />
                  ) : (
                    goes.map(({ batch, coupons }) => (
                      <div key={batch}>
                        {batch !== null && text.goBatch(batch)}
                        <GoList coupons={coupons} />
                      </div>
                    ))
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </>
  );
}

function GoList({ coupons }: { coupons: readonly string[] }) {
  return (
    <span className="plate-list">
      {coupons.map((coupon) => (
        <span key={coupon} className="plate-no">
          {coupon}
        </span>
      ))}
    </span>
  );
}

function WhoGetsWhat({ record }: { record: TrialRecord }) {
  return (
    <>
      <p>{text.inThisOrder}</p>
      <Scroll label={text.whoGetsWhat}>
        <table className="plain">
          <tbody>
            {couponsByTreatment(record).map(({ treatment, places }) => (
              <tr key={treatment}>
                <th scope="row">{treatment}</th>
                <td>
                  <span className="plate-list">
                    {places.map((place) => (
                      <span key={place.coupon} className="plate-no">
                        {place.coupon}
                        {place.spare && <small>&nbsp;{keptBack(record, place.coupon)}</small>}
                        {place.keptFor && <small>&nbsp;{text.keptFor[place.keptFor]}</small>}
                      </span>
                    ))}
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </>
  );
}

function keptBack(record: TrialRecord, coupon: string): string {
  const standIn = record.standIns.find(({ body }) => body.for === coupon);
  return standIn ? text.replaced(standIn.body.spare) : text.spare;
}

function allocation({ allocation: drawn }: Plan): string {
  if (drawn.how === "drawn") return text.drawn(drawn.seed, drawn.spread !== undefined);
  return drawn.how === "assumed" ? text.assumed : text.notRandomised;
}
