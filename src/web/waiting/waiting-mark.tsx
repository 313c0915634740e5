/** At the top of every screen: that the shop does not answer, how old what is shown is, and how much waits. */
import { useSyncExternalStore } from "react";
import { Link } from "wouter";
import { notableSkewMinutes, onClockHeard } from "../shop/clock-skew.ts";
import { useContact } from "../shop/contact.ts";
import { instantText } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import { useIsNearlyFull } from "./device-room.ts";
import { useWaiting } from "./use-waiting.ts";

export function WaitingMark() {
  const waiting = useWaiting();
  const { answers } = useContact();
  if (waiting.length === 0 && answers) return null;
  return (
    <Link href="/waiting" className={answers ? "waiting-mark" : "waiting-mark is-away"}>
      {[...(answers ? [] : [waitingText.away]), ...(waiting.length > 0 ? [waitingText.mark(waiting.length)] : [])].join(
        ", ",
      )}
    </Link>
  );
}

/** Said beneath the top line while it holds. */
export function AwayLine() {
  const { answers, shownAsOf } = useContact();
  const isNearlyFull = useIsNearlyFull();
  const offMinutes = useSyncExternalStore(onClockHeard, notableSkewMinutes);
  return (
    <div role="status">
      {!answers && (
        <p className="away is-silence">
          {waitingText.awayMore} {shownAsOf !== null && waitingText.asOf(instantText(shownAsOf))}
        </p>
      )}
      {offMinutes !== null && <p className="away">{waitingText.clockOff(offMinutes)}</p>}
      {isNearlyFull && <p className="away">{waitingText.nearlyFull}</p>}
    </div>
  );
}
