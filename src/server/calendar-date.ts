/** The day on the wall: the date here, not in Greenwich, at that moment. */
export function calendarDate(moment: Date): string {
  const twoDigits = (number: number) => String(number).padStart(2, "0");
  return `${moment.getFullYear()}-${twoDigits(moment.getMonth() + 1)}-${twoDigits(moment.getDate())}`;
}

/** The time zone of this machine's clock: the shop's own. */
export const shopZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;
