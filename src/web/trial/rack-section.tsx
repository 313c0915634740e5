/** The rack as it hangs, labels and map to print, and (folded away from those who look) who gets what. */
import { Link } from "wouter";
import type { Plan, TrialRecord } from "../../core/trial/trial-record.ts";
import { RackFigure } from "../../report/figures/rack-figure.tsx";
import { Scroll } from "../parts/scroll.tsx";
import { trialText } from "../text/trial.ts";
import { More, StageSection } from "./stage.tsx";
import { StandIns } from "./stand-ins-part.tsx";
import { couponsByTreatment, rackOf } from "./where-it-stands.ts";

const text = trialText.rack;

export function RackSection({ record }: { record: TrialRecord }) {
  const rack = rackOf(record);
  const rows = new Set(rack?.map((one) => one.row)).size;
  return (
    <StageSection id="rack" sentence={rack ? text.sentence(rows, rack.length) : text.none}>
      <p className="lead">{allocation(record.plan)}</p>
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
    </StageSection>
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
  if (drawn.how === "drawn") return text.drawn(drawn.seed);
  return drawn.how === "assumed" ? text.assumed : text.notRandomised;
}
