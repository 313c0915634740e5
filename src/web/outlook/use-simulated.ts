/** A longer simulation that the user asks for: with progress, and stopped by a press or by leaving. */
import { useEffect, useRef, useState } from "react";

export type LongWork<Result> = (handles: { signal: AbortSignal; progress: (share: number) => void }) => Promise<Result>;

export type Simulated<Result> =
  | { state: "idle" }
  | { state: "working"; share: number }
  | { state: "done"; result: Result }
  | { state: "broken"; why: string };

export function useSimulated<Result>(work: LongWork<Result>) {
  const [simulated, setSimulated] = useState<Simulated<Result>>({ state: "idle" });
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  const start = () => {
    const own = new AbortController();
    stop.current = own;
    setSimulated({ state: "working", share: 0 });
    const progress = (share: number) => {
      if (!own.signal.aborted) setSimulated({ state: "working", share });
    };
    work({ signal: own.signal, progress })
      .then((result) => setSimulated({ state: "done", result }))
      .catch((error: unknown) =>
        setSimulated(own.signal.aborted ? { state: "idle" } : { state: "broken", why: String(error) }),
      );
  };
  return { simulated, start, cancel: () => stop.current?.abort() };
}
