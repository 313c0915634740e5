/** The report's tests: what was read of each coupon, test by test. */
import type { DeclaredQuestion } from "../core/trial/declared-question.ts";
import type { TrialRecord, When } from "../core/trial/trial-record.ts";
import { finishText } from "./finish-text.ts";
import { whenText } from "./happened-section.tsx";
import { readValueText, tapeText, timeText, wearText, weighingText } from "./reading-text.ts";
import { reportText } from "./text.ts";
import { WideTable } from "./wide-table.tsx";

type TestRow = { id: string; coupon: string; read: string; when: When | null; by: string; note: string };

export function TestsSection({ record }: { record: TrialRecord }) {
  const groups = testGroups(record).filter(({ rows }) => rows.length > 0);
  if (groups.length === 0) return null;
  return (
    <section>
      <h2>{reportText.tests}</h2>
      {groups.map(({ title, rows }) => (
        <WideTable key={title} label={title}>
          <table>
            <caption>{title}</caption>
            <thead>
              <tr>
                <th>Coupon</th>
                <th>Treatment</th>
                <th>Read</th>
                <th>When</th>
                <th>By</th>
                <th>Note</th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ id, coupon, read, when, by, note }) => (
                <tr key={id}>
                  <td>{coupon}</td>
                  <td>{record.plan.places.find((place) => place.coupon === coupon)?.treatment}</td>
                  <td>{read}</td>
                  <td>{when === null ? reportText.noDate : whenText(when)}</td>
                  <td>{by}</td>
                  <td>{note}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </WideTable>
      ))}
    </section>
  );
}

function testGroups({ plan, tapeTests, wearTests, firstRustTimes, values, weighings, finishColours }: TrialRecord) {
  const names = [...new Set(values.map(({ body }) => body.name))];
  const groups: { title: string; rows: TestRow[] }[] = [
    {
      title: "Tape tests",
      rows: tapeTests.map(({ id, by, body }) => ({ ...body, id, by, read: tapeText(body) })),
    },
    {
      title: "Wear tests",
      rows: wearTests.map(({ id, by, body }) => ({
        ...body,
        id,
        by,
        read: `${wearText(body)}${body.place === null ? "" : `, ${body.place}`}`,
      })),
    },
    {
      title: "Times to first rust, as written down",
      rows: firstRustTimes.map(({ id, by, body }) => ({
        ...body,
        id,
        by,
        when: null,
        read: timeText({ left: body.leftDays, right: body.rightDays }, "days"),
      })),
    },
  ];
  const ofValues = names.map((name) => ({
    title: name,
    rows: values
      .filter(({ body }) => body.name === name)
      .map(({ id, by, body }) => ({
        ...body,
        id,
        by,
        read: readValueText(body.value, askedFor(plan.questions, name)),
      })),
  }));
  const weighed = {
    title: "Weighings",
    rows: weighings.map(({ id, by, body }) => ({ ...body, id, by, read: weighingText(body) })),
  };
  const colours = {
    title: "Finish colours",
    rows: finishColours.map(({ id, by, body }) => ({
      ...body,
      id,
      by,
      read: `${finishText(body.reading, plan.couponSize)}; ${body.state}`,
    })),
  };
  return [...groups, ...ofValues, weighed, colours];
}

const askedFor = (questions: readonly DeclaredQuestion[], name: string) =>
  questions.flatMap((one) => (one.response === "value" && one.name === name ? [one] : []))[0] ?? null;
