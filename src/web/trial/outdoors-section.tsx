/** Outdoors: the days at each site with looks and first rusts on one axis; who went out, who came down and why. */
import { type ComponentProps, useMemo, useRef } from "react";
import type { Reading } from "../../api/shop.ts";
import { stillAirWM2K } from "../../core/climate/steel-condensation.ts";
import { dateAfter } from "../../core/trial/calendar.ts";
import { exposureDay } from "../../core/trial/exposure-days.ts";
import { isPast, siteNames } from "../../core/trial/hanging-at-sites.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { DaysStrip } from "../../report/figures/days-strip.tsx";
import { figureText } from "../../report/figures/figure-text.ts";
import { rustSpans } from "../../report/figures/rust-spans.ts";
import { type DaysOfAir, siteStrip, stripClimate, unknownAir } from "../../report/figures/site-strip.ts";
import { stripDays } from "../../report/figures/strip-days.ts";
import { useDrawnWidth } from "../findings/drawn-width.ts";
import { AskedInside } from "../parts/asked.tsx";
import { deviceZone, todayDate } from "../parts/clock.ts";
import { Why } from "../parts/why.tsx";
import { useReadings } from "../shop/queries.ts";
import { onWhen } from "../text/parts.ts";
import { trialText } from "../text/trial.ts";
import { CalendarPart } from "./calendar-part.tsx";
import { ClimateLogForm } from "./climate-log-form.tsx";
import { Plates } from "./done-section.tsx";
import { PutOutFormPart } from "./put-out-form.tsx";
import { RecordRow } from "./record-row.tsx";
import { More, StageSection } from "./stage.tsx";
import { TakenDownFormPart } from "./taken-down-form.tsx";
import { couponsOut, isGone, outAt, startDate } from "./where-it-stands.ts";

const text = trialText.outdoors;

export function OutdoorsSection({ record }: { record: TrialRecord }) {
  const start = startDate(record);
  const sites = siteNames(record);
  const stillIn = record.standIns
    .map(({ body }) => body.spare)
    .filter((spare) => outAt(record, spare) === null && !isGone(record, spare));
  return (
    <StageSection id="outdoors" sentence={sentence(record, start, sites)}>
      {sites.map((site) => (
        <SiteStrip key={site} record={record} site={site} />
      ))}
      {sites.length === 0 && record.looks.length > 0 && <BareStrip record={record} />}
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
      <CalendarPart record={record} start={start} />
      {sites.length > 0 && (
        <More label={text.bringLog}>
          <ClimateLogForm sites={sites} />
        </More>
      )}
      <More label={text.putOut}>
        <PutOutFormPart record={record} />
      </More>
      {stillIn.length > 0 && record.putOut.length > 0 && <p>{text.stillIn(stillIn)}</p>}
      <More label={text.takeDown}>
        <TakenDownFormPart record={record} />
      </More>
    </StageSection>
  );
}

function sentence(record: TrialRecord, start: string | null, sites: string[]): string {
  if (start !== null && isPast(record)) return text.past(outOnce(record), sites, start);
  if (start !== null) return text.sentence(couponsOut(record).length, sites, start);
  if (record.looks.length > 0) return text.byDays;
  return isPast(record) ? text.notSaid : text.none;
}

/** All that ever went out. */
const outOnce = (record: TrialRecord): number => new Set(record.putOut.flatMap(({ body }) => body.coupons)).size;

function SiteStrip({ record, site }: { record: TrialRecord; site: string }) {
  const strip = useMemo(() => siteStrip(record, site, todayDate()), [record, site]);
  // A day more at both ends: the days are those of the wall clock, and the readings are asked for in UTC.
  const readings = useReadings(site, {
    from: `${dateAfter(strip.start, -1)}T00:00:00Z`,
    to: `${dateAfter(strip.endsBefore, 1)}T00:00:00Z`,
  });
  const { thicknessMm } = record.plan.couponSize;
  const climate = useMemo(
    () =>
      stripClimate(strip, (readings.data ?? []).map(logRow), { thicknessMm, zone: deviceZone(), nowMs: Date.now() }),
    [readings.data, strip, thicknessMm],
  );
  return (
    <>
      {siteNames(record).length > 1 && <h3>{site}</h3>}
      <div className="said-why">
        <div className="kept-room" data-room={longestSaid(site, strip.days)}>
          <AskedInside query={readings}>
            {() => <p className="sentence">{climate ? figureText.air(climate.whole) : text.noAir(site)}</p>}
          </AskedInside>
        </div>
        <div className="said-why" inert={!climate}>
          <AirWhys thicknessMm={thicknessMm} />
        </div>
      </div>
      <DrawnStrip
        days={strip.days}
        looks={strip.looks}
        plannedDays={record.plan.lookDays}
        firstRust={strip.firstRust}
        climate={climate ?? (readings.isSuccess ? unknownAir(strip) : notAnswered)}
        nowDay={strip.nowDay}
        label={text.strip(site)}
      />
      <p>
        <small>{figureText.airNote(thicknessMm)}</small>
      </p>
    </>
  );
}

const notAnswered: DaysOfAir = { days: [], dewNights: [] };

/** The room that the answer may need is kept while it is waited for: what stands below stays where it is. */
function longestSaid(site: string, days: number): string {
  const most = Math.max(100, 24 * Math.ceil(days));
  const air = { hours: most, wetHours: most, dewHours: most, dewNights: Math.ceil(days), unknownHours: most };
  return [figureText.air(air), text.noAir(site)].reduce((a, b) => (b.length > a.length ? b : a));
}

const logRow = ({ at, tempC, rhPercent }: Reading) => ({ atMs: Date.parse(at), tempC, rhPercent });

function AirWhys({ thicknessMm }: { thicknessMm: number }) {
  return (
    <>
      <Why of={text.whyWet} method="climate.timeOfWetness" inputs={[[text.zone, deviceZone()]]} />
      <Why
        of={text.whyDew}
        asked={text.dew}
        method="climate.steelWarmUp"
        inputs={[
          [text.sheet, `${thicknessMm} mm`],
          [text.heatTransfer, `${stillAirWM2K} W/m²K`],
        ]}
      />
    </>
  );
}

function BareStrip({ record }: { record: TrialRecord }) {
  const looks = record.looks.flatMap(({ body }) => {
    const day = exposureDay(record, body.coupon, body.when);
    return day === null ? [] : [{ day }];
  });
  return (
    <DrawnStrip
      days={stripDays({ looks, plannedDays: record.plan.lookDays, nowDay: null })}
      looks={looks}
      plannedDays={record.plan.lookDays}
      firstRust={rustSpans(record)}
      climate={null}
      nowDay={null}
      label={text.stripOf}
    />
  );
}

function DrawnStrip(strip: Omit<ComponentProps<typeof DaysStrip>, "widthPx">) {
  const room = useRef<HTMLDivElement>(null);
  const widthPx = useDrawnWidth(room);
  return <div ref={room}>{widthPx !== null && <DaysStrip {...strip} widthPx={widthPx} />}</div>;
}
