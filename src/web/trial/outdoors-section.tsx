/** Outdoors: the days at each site with looks and first rusts on one axis; who went out, who came down and why. */
import { dateAfter, daysBetween } from "../../core/trial/calendar.ts";
import { exposureDay } from "../../core/trial/exposure-days.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { DaysStrip } from "../../report/figures/days-strip.tsx";
import { climateDays } from "../../report/figures/days-strip-layout.ts";
import { todayDate } from "../parts/clock.ts";
import { Scroll } from "../parts/scroll.tsx";
import { useReadings } from "../shop/queries.ts";
import { onWhen } from "../text/parts.ts";
import { trialText } from "../text/trial.ts";
import { Plates } from "./done-section.tsx";
import { PutOutFormPart } from "./put-out-form.tsx";
import { RecordRow } from "./record-row.tsx";
import { rustSpans } from "./rust-spans.ts";
import { More, StageSection } from "./stage.tsx";
import { stripDays } from "./strip-days.ts";
import { TakenDownFormPart } from "./taken-down-form.tsx";
import { couponsOut, outAt, sitesOf, startDate } from "./where-it-stands.ts";

const text = trialText.outdoors;

export function OutdoorsSection({ record }: { record: TrialRecord }) {
  const start = startDate(record);
  const sites = sitesOf(record);
  return (
    <StageSection id="outdoors" sentence={sentence(record, start, sites)}>
      {start !== null && sites.map((site) => <SiteStrip key={site} record={record} site={site} start={start} />)}
      {start === null && record.looks.length > 0 && <BareStrip record={record} />}
      <ul className="bare">
        {record.putOut.map((one) => (
          <RecordRow
            key={one.id}
            trialId={record.id}
            observed={one}
            form={(onWritten) => <PutOutFormPart record={record} corrects={one} onWritten={onWritten} />}
          >
            <p>{text.wentOut(one.body)}</p>
          </RecordRow>
        ))}
        {record.takenDown.map((one) => (
          <RecordRow
            key={one.id}
            trialId={record.id}
            observed={one}
            form={(onWritten) => <TakenDownFormPart record={record} corrects={one} onWritten={onWritten} />}
          >
            <p>
              <Plates coupons={[one.body.coupon]} />{" "}
              {text.downWas(one.body.coupon, onWhen(one.body.when), text.reasons[one.body.reason])}
              {one.body.note && `. ${one.body.note}`}
            </p>
          </RecordRow>
        ))}
      </ul>
      <More label={text.putOut}>
        <PutOutFormPart record={record} />
      </More>
      {(record.putOut.length > 0 || record.looks.length > 0) && (
        <More label={text.takeDown}>
          <TakenDownFormPart record={record} />
        </More>
      )}
    </StageSection>
  );
}

function sentence(record: TrialRecord, start: string | null, sites: string[]): string {
  if (start !== null) return text.sentence(couponsOut(record).length, sites, start);
  return record.looks.length > 0 ? text.byDays : text.none;
}

function SiteStrip({ record, site, start }: { record: TrialRecord; site: string; start: string }) {
  const atSite = (coupon: string) => outAt(record, coupon)?.body.site === site;
  const looks = record.looks.flatMap(({ body }) => {
    const day = atSite(body.coupon) ? exposureDay(record, body.coupon, body.when) : null;
    return day === null ? [] : [{ day }];
  });
  const nowDay = couponsOut(record).some(atSite) ? daysBetween(start, todayDate()) : null;
  const days = stripDays({ looks, plannedDays: record.plan.lookDays, nowDay });
  const readings = useReadings(site, { from: `${start}T00:00:00Z`, to: `${dateAfter(start, days + 1)}T00:00:00Z` });
  const climate = climateDays(readings.data ?? [], start).filter((one) => one.day >= 0 && one.day <= days);
  return (
    <>
      {sitesOf(record).length > 1 && <h3>{site}</h3>}
      <Scroll label={text.strip(site)}>
        <DaysStrip
          days={days}
          looks={looks}
          plannedDays={record.plan.lookDays}
          firstRust={rustSpans(record).filter((one) => atSite(one.coupon))}
          climate={climate}
          nowDay={nowDay !== null && nowDay <= days ? nowDay : null}
          label={text.strip(site)}
        />
      </Scroll>
      <p>
        <small>{climate.length > 0 ? text.airNote : text.noAir}</small>
      </p>
    </>
  );
}

function BareStrip({ record }: { record: TrialRecord }) {
  const looks = record.looks.flatMap(({ body }) => {
    const day = exposureDay(record, body.coupon, body.when);
    return day === null ? [] : [{ day }];
  });
  return (
    <Scroll label={text.stripOf}>
      <DaysStrip
        days={stripDays({ looks, plannedDays: record.plan.lookDays, nowDay: null })}
        looks={looks}
        plannedDays={record.plan.lookDays}
        firstRust={rustSpans(record)}
        climate={[]}
        nowDay={null}
        label={text.stripOf}
      />
    </Scroll>
  );
}
