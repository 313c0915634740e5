/** The planned looks as an iCalendar file (RFC 5545): days of the year, a reminder on the morning, never a treatment. */
import ical, { ICalAlarmRelatesTo, ICalAlarmType, ICalCalendarMethod, ICalEventStatus } from "ical-generator";
import { lookEvents } from "../core/trial/look-events.ts";
import type { TrialRecord } from "../core/trial/trial-record.ts";
import { calendarText } from "./text.ts";

/** At eight in the morning of the day, by the clock of whoever imports it. */
const reminderAfterMidnightS = 8 * 3600;

/**
 * `restFrom`: when coupons that are not out yet are meant to go out, YYYY-MM-DD; `stampedAt`: the moment of writing.
 * A file made later replaces the events of an earlier one: the same look keeps its identity, and its sequence rises; a
 * look that is no longer planned comes once more, as cancelled.
 */
export function lookCalendar(record: TrialRecord, restFrom: string | null, stampedAt: Date): string {
  // The library escapes line ends everywhere but in the calendar's own name, where they would begin lines of somebody else's.
  const name = record.name.replace(/\p{Cc}+/gu, " ");
  const calendar = ical({
    name: calendarText.name(name),
    prodId: { company: "Coatwright", product: "Looks", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const look of lookEvents(record, restFrom)) {
    const event = calendar.createEvent({
      id: `${look.key}@coatwright`,
      stamp: stampedAt,
      sequence: record.corrections + record.putOut.length + record.takenDown.length,
      allDay: true,
      start: new Date(`${look.date}T00:00:00Z`),
      summary: look.calledOff ? calendarText.calledOff(look, name) : calendarText.look(look, name),
      description: calendarText.coupons(look.coupons),
      ...(look.calledOff && { status: ICalEventStatus.CANCELLED }),
    });
    if (look.calledOff) continue;
    event
      .createAlarm({
        type: ICalAlarmType.display,
        triggerAfter: reminderAfterMidnightS,
        description: calendarText.look(look, name),
      })
      // The library counts from the event's end, the next midnight, unless told otherwise here.
      .relatesTo(ICalAlarmRelatesTo.start);
  }
  return calendar.toString();
}
