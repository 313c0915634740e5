/** The looks for the user's own calendar; before coupons are out, with the date on which they are meant to go. */
import { useState } from "react";
import { isPast } from "../../core/trial/hanging-at-sites.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { TextField } from "../parts/field.tsx";
import { trialText } from "../text/trial.ts";
import { More } from "./stage.tsx";

const text = trialText.calendar;

export function CalendarPart({ record, start }: { record: TrialRecord; start: string | null }) {
  const [from, setFrom] = useState(todayDate);
  if (isPast(record) || record.plan.lookDays.length === 0) return null;
  const known = start !== null || from !== "";
  return (
    <More label={text.title}>
      <p>{start === null ? text.notOut : text.out(record.plan.lookDays.length)}</p>
      {start === null && (
        <TextField
          label={text.from}
          type="date"
          value={from}
          onType={setFrom}
          error={known ? null : trialText.outdoors.needsDate}
        />
      )}
      {known && (
        <div className="actions">
          <a
            className="button second"
            href={calendarPath(record.id, start === null ? from : null)}
            download="looks.ics"
          >
            {text.get}
          </a>
        </div>
      )}
      <p>
        <small>{text.again}</small>
      </p>
    </More>
  );
}

function calendarPath(trialId: string, from: string | null): string {
  return `/api/trials/${trialId}/looks.ics${from === null ? "" : `?from=${from}`}`;
}
