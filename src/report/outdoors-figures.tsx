/** The report's strip of days of each site, with its hours in a sentence. */
import type { ExposureClimate } from "../core/climate/exposure-climate.ts";
import type { TrialRecord } from "../core/trial/trial-record.ts";
import { AtWidth, type FigureWidth } from "./figures/at-width.tsx";
import { DaysStrip } from "./figures/days-strip.tsx";
import { figureText } from "./figures/figure-text.ts";
import type { SiteStrip } from "./figures/site-strip.ts";
import { reportText } from "./text.ts";

export type OutdoorsAtSite = { strip: SiteStrip; climate: ExposureClimate | null };

export function OutdoorsFigures(props: {
  record: TrialRecord;
  outdoors: readonly OutdoorsAtSite[];
  width: FigureWidth;
}) {
  const { record, outdoors, width } = props;
  return outdoors.map(({ strip, climate }) => (
    <figure key={strip.site}>
      <h3>{strip.site}</h3>
      <p>{climate ? figureText.air(climate.whole) : reportText.noLog}</p>
      <AtWidth width={width}>
        {(widthPx) => (
          <DaysStrip
            days={strip.days}
            looks={strip.looks}
            plannedDays={record.plan.lookDays}
            firstRust={strip.firstRust}
            climate={climate}
            nowDay={null}
            widthPx={widthPx}
            label={strip.site}
          />
        )}
      </AtWidth>
      {climate && <figcaption>{figureText.airNote(record.plan.couponSize.thicknessMm)}</figcaption>}
    </figure>
  ));
}
