/** The report's account of what was done and what went wrong, in the order it happened. */
import type { TrialRecord, When } from "../core/trial/trial-record.ts";
import { fahrenheitFromC, type Preferences } from "../core/units.ts";
import type { FigureWidth } from "./figures/at-width.tsx";
import { valueText } from "./figures/number-text.ts";
import { type OutdoorsAtSite, OutdoorsFigures } from "./outdoors-figures.tsx";
import { stepRows } from "./step-rows.ts";
import { reportText } from "./text.ts";

export function HappenedSection({
  record,
  preferences,
  outdoors,
  width,
}: {
  record: TrialRecord;
  preferences: Preferences;
  outdoors: readonly OutdoorsAtSite[];
  width: FigureWidth;
}) {
  const steps = stepRows(record.applications.map(({ body }) => body));
  return (
    <section>
      <h2>{reportText.happened}</h2>
      {steps.length > 0 && (
        <table>
          <thead>
            <tr>
              <th>Begun</th>
              <th>Step</th>
              <th>Coupons</th>
              <th>Took</th>
              <th>At</th>
            </tr>
          </thead>
          <tbody>
            {steps.map((row) => (
              <tr key={`${row.step} ${row.startedAt} ${row.coupons[0]}`}>
                <td className="one-line">{row.startedAt ? instantText(row.startedAt) : ""}</td>
                <td>
                  {row.step}
                  {row.note && <div className="quiet">{row.note}</div>}
                </td>
                <td>
                  {row.coupons.join(", ")}
                  {row.byItself && row.coupons.length > 1 && <span className="quiet"> (each by itself)</span>}
                </td>
                <td className="one-line">
                  {row.startedAt && row.endedAt ? durationText(row.startedAt, row.endedAt) : ""}
                </td>
                <td className="one-line">{row.tempC ? tempRangeText(row.tempC, preferences) : ""}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <ul>
        {record.putOut.map(({ id, body }) => (
          <li key={id}>
            Put out {body.site === null ? "" : `at ${body.site} `}on {body.date}: {body.coupons.join(", ")}.
          </li>
        ))}
        {record.takenDown.map(({ id, body }) => (
          <li key={id}>
            Coupon {body.coupon} taken down {whenText(body.when)}: {body.reason}
            {body.note ? `, ${body.note}` : ""}.
          </li>
        ))}
        {record.standIns.map(({ id, body }) => (
          <li key={id}>
            Spare {body.spare} took the place of coupon {body.for} ({body.why}).
          </li>
        ))}
        <li>
          {counted(record.looks.length, "look")} and {counted(testsOf(record), "test")} on record; corrections so far,
          each with its reason: {record.corrections}.
        </li>
      </ul>
      <OutdoorsFigures record={record} outdoors={outdoors} width={width} />
      <h2>{reportText.deviations}</h2>
      {record.deviations.length === 0 && <p>{reportText.noDeviations}</p>}
      <ul>
        {record.deviations.map(({ id, body }) => (
          <li key={id}>
            {body.coupons.length > 1 ? "Coupons" : "Coupon"} {body.coupons.join(", ")}
            {body.step ? `, ${body.step}` : ""}: {body.what}
            {body.paperworkOnly ? " (paperwork only)" : ""}.
          </li>
        ))}
      </ul>
    </section>
  );
}

const testsOf = ({ tapeTests, firstRustTimes, wearTests, values, weighings, finishColours }: TrialRecord) =>
  [tapeTests, firstRustTimes, wearTests, values, weighings, finishColours].reduce(
    (sum, tests) => sum + tests.length,
    0,
  );

export function whenText(when: When): string {
  return "date" in when ? `on ${when.date}` : `on day ${valueText(when.day)}`;
}

const counted = (n: number, thing: string) => `${n} ${n === 1 ? thing : `${thing}s`}`;

/** As written down: the shop's own clock, to the minute. */
function instantText(instant: string): string {
  return `${instant.slice(0, 10)} ${instant.slice(11, 16)}`;
}

function durationText(from: string, to: string): string {
  const seconds = Math.round((Date.parse(to) - Date.parse(from)) / 1000);
  if (seconds < 120) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  return minutes < 120 ? `${minutes} min` : `${valueText(minutes / 60)} h`;
}

function tempRangeText({ low, high }: { low: number; high: number }, preferences: Preferences): string {
  const text = (tempC: number) => {
    const value = preferences.temp === "°C" ? tempC : fahrenheitFromC(tempC);
    return valueText(Math.round(value * 10) / 10);
  };
  return low === high ? `${text(low)} ${preferences.temp}` : `${text(low)} to ${text(high)} ${preferences.temp}`;
}
