/** When an observation was written down, which may be hours before it reached the shop. By the shop's clock. */
export type Timed = { recordedAt: string; written?: { at: string; deviceClock: string; skewMs: number } };

export const writtenAt = ({ written, recordedAt }: Timed): string => written?.at ?? recordedAt;

/**
 * By the time of writing, where that is known to differ from the arrival; all others keep their place, since the shop
 * took them in as they were written down.
 */
export function inWrittenOrder<One extends Timed>(observations: readonly One[]): One[] {
  if (observations.every(({ written }) => written === undefined)) return [...observations];
  return [...observations].sort((one, other) => Date.parse(writtenAt(one)) - Date.parse(writtenAt(other)));
}

type FromDevice = Timed & { device?: string };

/** By two devices, each written down before the other had reached the shop. No `device`: the shop's own machine. */
export function unknownToEachOther(one: FromDevice, other: FromDevice): boolean {
  if (one.device === other.device) return false;
  return isBefore(writtenAt(one), other.recordedAt) && isBefore(writtenAt(other), one.recordedAt);
}

const isBefore = (one: string, other: string): boolean => Date.parse(one) < Date.parse(other);
