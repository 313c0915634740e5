/** What a logger writes down at one time. */
export type LogRow = { atMs: number; tempC: number | null; rhPercent: number | null };

/**
 * Whether two readings say the same.
 *
 * Units    °C, %
 * Source   rule of this project
 * Status   common practice
 */
export function saysTheSame(one: LogRow, other: LogRow): boolean {
  return one.tempC === other.tempC && one.rhPercent === other.rhPercent;
}
