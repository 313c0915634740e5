/** The face's own clock: the device's date and time, as the forms write them. */

/** Today's date on this device, "2026-03-01". */
export function todayDate(): string {
  return localText(new Date()).slice(0, 10);
}

/** The time zone of this device's clock. */
export const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Now, as a datetime field shows it: "2026-03-01T14:05". */
export function nowTyped(): string {
  return localText(new Date());
}

/** An instant as a datetime field of this device shows it. */
export function typedFromInstant(instant: string): string {
  return localText(new Date(instant));
}

/** The instant that was typed on this device's clock, with its offset; null when it is none. */
export function instantFromTyped(typed: string): string | null {
  const at = new Date(typed);
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(typed) || Number.isNaN(at.getTime())) return null;
  return `${localText(at)}:00${offsetText(-at.getTimezoneOffset())}`;
}

export function offsetText(minutesEast: number): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const away = Math.abs(minutesEast);
  return `${minutesEast < 0 ? "-" : "+"}${two(Math.floor(away / 60))}:${two(away % 60)}`;
}

function localText(at: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${date}T${two(at.getHours())}:${two(at.getMinutes())}`;
}
