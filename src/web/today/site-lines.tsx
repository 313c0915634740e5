/** Each site in one line: what hangs there, how wet it is, and the last day hour by hour. */
import { Link } from "wouter";
import type { SiteSummary } from "../../api/shop.ts";
import { AskedInside } from "../parts/asked.tsx";
import { Why } from "../parts/why.tsx";
import type { useSites } from "../shop/queries.ts";
import { todayText } from "../text/today.ts";
import { LastDayStrip } from "./last-day-strip.tsx";
import { siteSentence } from "./site-sentence.ts";

const text = todayText.sites;

export function SiteLines({ sites }: { sites: ReturnType<typeof useSites> }) {
  return (
    <AskedInside query={sites}>
      {(all) =>
        all.length === 0 ? null : (
          <section className="sites" aria-labelledby="sites-title">
            <h2 id="sites-title">{text.title}</h2>
            {all.map((one) => (
              <SiteLine key={one.site} site={one} />
            ))}
          </section>
        )
      }
    </AskedInside>
  );
}

function SiteLine({ site }: { site: SiteSummary }) {
  const { hanging, lastDay } = site;
  return (
    <div className="site-line">
      <div>
        <p>{siteSentence(site)}</p>
        <p className="reason">
          {hanging.map(({ trial }) => (
            <Link key={trial.id} href={`/trials/${trial.id}#outdoors`}>
              {trial.name}
            </Link>
          ))}
          {lastDay && <Why of={text.wetHours(site.site)} method="climate.timeOfWetness" />}
        </p>
      </div>
      {lastDay && <LastDayStrip day={lastDay} label={text.strip(site.site, lastDay.endsAt, lastDay.endsNow)} />}
    </div>
  );
}
