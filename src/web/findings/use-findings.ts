/** The findings of a trial, computed on this device beside the page and anew whenever the record changes. */
import { useEffect, useState } from "react";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import type { FindingsMessage } from "./findings-work.ts";

export function useFindings(record: TrialRecord): FindingsMessage {
  const [message, setMessage] = useState<FindingsMessage>({ answers: [], finished: false });
  useEffect(() => {
    setMessage({ answers: [], finished: false });
    const worker = new Worker(new URL("./findings-worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<FindingsMessage>) => setMessage(data);
    worker.onerror = (event) => setMessage({ failure: event.message });
    worker.postMessage(record);
    return () => worker.terminate();
  }, [record]);
  return message;
}
