/** The clock from tape down to pull; it goes on over a reload. */
import { useEffect, useState } from "react";
import { keep, readKept } from "../keep/kept.ts";
import { tapeTestText as text } from "../text/tape.ts";

const keptAs = "tape is down";

export function TapeClock() {
  const [downAt, setDownAt] = useState(() => {
    const kept = readKept(keptAs);
    return typeof kept === "number" && Date.now() - kept < 10 * 60_000 ? kept : null;
  });
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (downAt === null) return;
    const tick = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(tick);
  }, [downAt]);
  const start = () => {
    const at = Date.now();
    keep(keptAs, at);
    setNow(at);
    setDownAt(at);
  };
  return (
    <div className="actions">
      <button type="button" className={downAt === null ? "wet" : "second"} onClick={start}>
        {downAt === null ? text.clockStart : text.clockAgain}
      </button>
      {downAt !== null && <b role="timer">{text.clock(Math.max(0, Math.round((now - downAt) / 1000)))}</b>}
    </div>
  );
}
