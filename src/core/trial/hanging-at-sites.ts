/** Where coupons hang now. */
import type { TrialRecord } from "./trial-record.ts";

export type SiteInUse = {
  site: string;
  hanging: { trial: { id: string; name: string }; coupons: number; since: string }[];
};

/** Nobody says that its coupons still hang: the trial is closed, or came from a notebook. */
export const isPast = ({ unblinded, plan }: TrialRecord): boolean => unblinded || plan.allocation.how !== "drawn";

/**
 * Sites at which coupons of open trials hang, with how many of which trial and since when; sites in the order of their names.
 * Of a past trial nothing is awaited any more, and what became of its coupons is not asked.
 */
export function hangingAtSites(records: readonly TrialRecord[]): SiteInUse[] {
  const sites = new Map<string, SiteInUse["hanging"]>();
  for (const record of records.filter((one) => !isPast(one))) {
    const down = new Set(record.takenDown.map(({ body }) => body.coupon));
    for (const site of siteNames(record)) {
      const out = record.putOut.flatMap(({ body }) =>
        body.site === site
          ? body.coupons.filter((coupon) => !down.has(coupon)).map((coupon) => ({ coupon, since: body.date }))
          : [],
      );
      if (out.length === 0) continue;
      const since = out.map((one) => one.since).sort()[0]!;
      const hanging = { trial: { id: record.id, name: record.name }, coupons: out.length, since };
      sites.set(site, [...(sites.get(site) ?? []), hanging]);
    }
  }
  return [...sites].map(([site, hanging]) => ({ site, hanging })).sort((a, b) => a.site.localeCompare(b.site, "en"));
}

/**
 * The sites of a trial, each once, in the order in which coupons first went there. A put-out without a site (a table that
 * named none) has none.
 */
export function siteNames(record: TrialRecord): string[] {
  return [...new Set(record.putOut.flatMap(({ body }) => (body.site === null ? [] : [body.site])))];
}
