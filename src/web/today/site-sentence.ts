/** A site in one sentence: what hangs there since when, and how wet it was. */
import type { SiteSummary } from "../../api/shop.ts";
import { instantText } from "../text/parts.ts";
import { todayText } from "../text/today.ts";

const text = todayText.sites;

export function siteSentence({ site, hanging, lastDay, exposure }: SiteSummary): string {
  const coupons = hanging.reduce((sum, one) => sum + one.coupons, 0);
  const since = hanging.map((one) => one.since).sort()[0];
  const out = since === undefined ? text.nothing : text.out(coupons, since);
  const air =
    lastDay === null
      ? text.noLog
      : [
          lastDay.endsNow
            ? text.lastDay(lastDay.wetHours, lastDay.unknownHours)
            : text.ended(instantText(lastDay.endsAt), lastDay.wetHours),
          ...(exposure ? [text.soFar(exposure)] : []),
        ].join("; ");
  return `${capitalised(site)}: ${out}; ${air}.`;
}

const capitalised = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);
