/** Words of the small parts that every screen shares. */
export const whyText = {
  why: "why?",
  about: (of: string, asked = "Why?") => `${asked} ${of}: formula, source and status`,
  aboutSaid: (of: string, asked = "Why?") => `${asked} ${of}`,
  noHead: (method: string) => `No description of ${method} was found.`,
  fields: {
    formula: "Formula",
    units: "Units",
    source: "Source",
    status: "Status",
    holds: "Holds",
    refuses: "Refuses",
  },
};

/** "3", "3 and 9", "3, 9 and 14". */
export function listed(things: readonly string[]): string {
  if (things.length < 2) return things.join("");
  return `${things.slice(0, -1).join(", ")} and ${things.at(-1)}`;
}

/** "1 coupon", "6 coupons". */
export const counted = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

const shortDay = new Intl.DateTimeFormat("en", { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
/** A calendar date as written down, never shifted by a time zone: "3 Mar 2026". */
export function dateText(date: string): string {
  const parts = shortDay.formatToParts(new Date(`${date}T00:00:00Z`));
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "";
  return `${part("day")} ${part("month")} ${part("year")}`;
}

const shortMonth = new Intl.DateTimeFormat("en", { month: "short" });

/** An instant on this device's clock: "3 Mar, 14:05". */
export function instantText(instant: string): string {
  const at = new Date(instant);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${at.getDate()} ${shortMonth.format(at)}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}

export const pickerText = {
  coupon: (coupon: string) => `Coupon ${coupon}`,
  chosen: (n: number, of: number) => `${n} of ${of} chosen`,
  all: "All",
  none: "None",
};

export const recordText = {
  why: "Why is it corrected?",
  whyMissing: "A correction says why.",
  correct: "Correct this",
  withdraw: "It should never have been written: withdraw it",
  withdrawGo: "Withdraw it",
  withdrawWhy: "Why is it withdrawn?",
  by: (by: string, recorded: string) => `written down by ${by}, ${recorded}`,
  corrected: (why: string) => `Corrected: ${why}`,
  you: "Your name, written beside what you record",
  youMissing: "Whose record is it? A name is missing.",
  sending: "Writing it down…",
  written: {
    stored: "Written down.",
    waiting: "Kept on this device. It is sent by itself when the shop answers.",
  },
};

export const whenText = {
  days: "days from the start",
  day: (label: string) => `${label}, as a day number`,
};

/** "on 3 Mar 2026", "on day 12". */
export const onWhen = (when: { date: string } | { day: number }) =>
  "date" in when ? `on ${dateText(when.date)}` : `on day ${when.day}`;
