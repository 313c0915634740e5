/** When an observation was written down, which may be hours before it reached the shop. By the shop's clock. */
type Timed = { recordedAt: string; written?: { at: string; deviceClock: string; skewMs: number } };

export const writtenAt = ({ written, recordedAt }: Timed): string => written?.at ?? recordedAt;

/**
 * By the time of writing, where that is known to differ from the arrival; all others keep their place, since the shop
 * took them in as they were written down.
 */
export function inWrittenOrder<One extends Timed>(observations: readonly One[]): One[] {
  if (observations.every(({ written }) => written === undefined)) return [...observations];
  return [...observations].sort((one, other) => Date.parse(writtenAt(one)) - Date.parse(writtenAt(other)));
}
