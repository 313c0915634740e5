/** What a stored trial knows beside the treatments, by coupon: all that a difference could be confused with. */
import { daysBetween } from "./calendar.ts";
import type { CouponPlace } from "./coupon-place.ts";
import { tapeCircumstance, tapeCircumstanceNames } from "./tape-test.ts";
import { differingSteps } from "./trial-applications.ts";
import type { Application, TrialRecord } from "./trial-record.ts";
import type { Reading } from "./trial-responses.ts";
import { wearCircumstance, wearCircumstanceNames } from "./wear-conditions.ts";

type Circumstances = Readonly<Record<string, string | number | null>>;

/**
 * Site, start of exposure (days after the first coupon), rack row and column, edge or inner place, inspector, and of each
 * step that all compared routes share its temperature (°C), its time and the wait before it (minutes). What follows from
 * the steps in which routes differ is the treatment, not a circumstance. A tape test adds paint, tape and spacing of cuts, a wear test what rubs and how.
 * What a table said besides stands last. Only what
 * was recorded of some coupon is a key. `readings`: those that answer the question; their inspectors count.
 */
export function trialCircumstances(
  record: TrialRecord,
  comparedTreatments: readonly string[],
  readings: readonly Reading[],
): Map<string, Circumstances> {
  const columns: [string, (place: CouponPlace) => string | number | null][] = [
    ["site", ({ coupon }) => putOutOf(record, coupon)?.site ?? null],
    ["start of exposure", ({ coupon }) => startDay(record, coupon)],
    ["row", ({ rack }) => rack?.row ?? null],
    ["column", ({ rack }) => rack?.column ?? null],
    ["edge", (place) => edgeOf(record, place)],
    ["inspector", ({ coupon }) => inspectorsOf(readings, coupon)],
    ...tapeColumns(record, comparedTreatments, readings),
    ...wearColumns(readings),
    ...sharedSteps(record, comparedTreatments).flatMap((step) => stepColumns(record, step)),
  ];
  const written = record.circumstances.map(({ body }) => body);
  const names = [...new Set([...columns.map(([name]) => name), ...written.map(({ name }) => name)])];
  const computed = new Map(columns);
  const said = (place: CouponPlace, name: string) =>
    computed.get(name)?.(place) ??
    written.find((one) => one.coupon === place.coupon && one.name === name)?.value ??
    null;
  const { places } = record.plan;
  const rows = places.map((place) => names.map((name) => [name, said(place, name)] as const));
  const known = names.filter((_, at) => rows.some((row) => row[at]![1] !== null));
  return new Map(
    rows.map((row, at) => [places[at]!.coupon, Object.fromEntries(row.filter(([name]) => known.includes(name)))]),
  );
}

const putOutOf = ({ putOut }: TrialRecord, coupon: string) =>
  putOut.find(({ body }) => body.coupons.includes(coupon))?.body ?? null;

function startDay(record: TrialRecord, coupon: string): number | null {
  const first = record.putOut.map(({ body }) => body.date).sort()[0];
  const own = putOutOf(record, coupon)?.date;
  return first === undefined || own === undefined ? null : daysBetween(first, own);
}

/** Of a rack that was drawn; a table says itself what its edges are. */
function edgeOf({ plan }: TrialRecord, { rack }: CouponPlace): string | null {
  if (rack === null || plan.allocation.how !== "drawn") return null;
  const racks = plan.places.flatMap((place) => (place.rack ? [place.rack] : []));
  const lastRow = Math.max(...racks.map((one) => one.row));
  const lastColumn = Math.max(...racks.map((one) => one.column));
  const outer = rack.row === 1 || rack.row === lastRow || rack.column === 1 || rack.column === lastColumn;
  return outer ? "edge" : "inner";
}

function inspectorsOf(readings: readonly Reading[], coupon: string): string | null {
  const names = readings.filter(({ body }) => body.coupon === coupon).map((one) => one.by);
  return names.length > 0 ? [...new Set(names)].sort().join(" and ") : null;
}

/** What a tape test says of the paint, the tape and the cut; of several tests of one coupon the last. */
function tapeColumns(
  record: TrialRecord,
  comparedTreatments: readonly string[],
  readings: readonly Reading[],
): [string, (place: CouponPlace) => string | number | null][] {
  const told = new Map(
    readings.flatMap(({ body }) =>
      body.kind === "tape test" && body.details ? [[body.coupon, body.details] as const] : [],
    ),
  );
  return tapeCircumstanceNames(differingSteps(routesOf(record, comparedTreatments))).map((name) => [
    name,
    ({ coupon }) => {
      const details = told.get(coupon);
      return details ? tapeCircumstance(details, name) : null;
    },
  ]);
}

/** What rubbed, and how; of several runs of one coupon the last. */
function wearColumns(readings: readonly Reading[]): [string, (place: CouponPlace) => string | number | null][] {
  const told = new Map(
    readings.flatMap(({ body }) =>
      body.kind === "wear test" && body.conditions ? [[body.coupon, body.conditions] as const] : [],
    ),
  );
  return wearCircumstanceNames.map((name) => [
    name,
    ({ coupon }) => {
      const conditions = told.get(coupon);
      return conditions ? wearCircumstance(conditions, name) : null;
    },
  ]);
}

function sharedSteps(record: TrialRecord, comparedTreatments: readonly string[]): string[] {
  const routes = routesOf(record, comparedTreatments);
  const differing = differingSteps(routes);
  return [...new Set(routes.flat())].filter((step) => !differing.includes(step));
}

function routesOf({ plan }: TrialRecord, comparedTreatments: readonly string[]): string[][] {
  return plan.treatments
    .filter((one) => comparedTreatments.includes(one.name))
    .map((one) => (one.route ?? []).map((step) => step.name));
}

function stepColumns(record: TrialRecord, step: string): [string, (place: CouponPlace) => number | null][] {
  // A name goes into the table's --circumstance a,b: no commas in it.
  const plain = step.replaceAll(",", "");
  const appliedTo = (coupon: string, name: string): Application | undefined =>
    record.applications.find(({ body }) => body.step === name && body.coupons.includes(coupon))?.body;
  return [
    [`temperature of ${plain}`, ({ coupon }) => appliedTo(coupon, step)?.tempC ?? null],
    [
      `time of ${plain}`,
      ({ coupon }) => {
        const own = appliedTo(coupon, step);
        return own?.startedAt && own.endedAt ? minutesBetween(own.startedAt, own.endedAt) : null;
      },
    ],
    [
      `wait before ${plain}`,
      (place) => {
        const own = appliedTo(place.coupon, step);
        const before = stepBefore(record, place, step);
        const earlier = before === null ? undefined : appliedTo(place.coupon, before);
        return own?.startedAt && earlier?.endedAt ? minutesBetween(earlier.endedAt, own.startedAt) : null;
      },
    ],
  ];
}

function stepBefore({ plan }: TrialRecord, { treatment }: CouponPlace, step: string): string | null {
  const route = plan.treatments.find((one) => one.name === treatment)?.route ?? [];
  const at = route.findIndex((one) => one.name === step);
  return at > 0 ? route[at - 1]!.name : null;
}

const minutesBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 60_000;
