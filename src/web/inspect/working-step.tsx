/** Long work on a photograph: the picture, how far it is, a way to stop it, and what to do when it failed. */
import { useMutation } from "@tanstack/react-query";
import { type ReactNode, useEffect } from "react";
import type { PhotoRefusal } from "../../api/photo.ts";
import { Trouble } from "../parts/trouble.tsx";
import { inspectText } from "../text/inspect.ts";
import { stopJob, useJob } from "./measuring.ts";

export function WorkingStep(props: {
  job: string;
  title: string;
  back: string;
  onDone: () => void;
  onBack: () => void;
  /** A photograph that is not good enough to be rated is no failure of the work. */
  onRefused?: (refusal: PhotoRefusal) => void;
  children?: ReactNode;
}) {
  const { job, title, back, onDone, onBack, onRefused, children } = props;
  const { data, error } = useJob(job);
  const stop = useMutation({ mutationFn: () => stopJob(job), onSuccess: onBack });
  const done = data?.state === "done";
  useEffect(() => {
    if (done) onDone();
  }, [done, onDone]);

  const refusal = data?.refusal ?? null;
  useEffect(() => {
    if (refusal) onRefused?.(refusal);
  }, [refusal, onRefused]);

  const ended = data?.state === "failed" || data?.state === "cancelled" || error !== null;
  if (ended)
    return (
      <section className="inspect-step">
        {data?.state === "failed" && (
          <p role="alert" className="trouble">
            {inspectText.measuringFailed(data.failure ?? "")}
          </p>
        )}
        {data?.state === "cancelled" && <p>{inspectText.measuringStopped}</p>}
        <Trouble error={data ? null : error} />
        <div className="actions">
          <button type="button" className="wet" onClick={onBack}>
            {back}
          </button>
        </div>
      </section>
    );
  return (
    <section className="inspect-step" aria-live="polite">
      <p className="sentence">{title}</p>
      <progress value={data?.progress ?? 0} max={1} aria-label={title} />
      {children}
      <Trouble error={stop.error} />
      <div className="actions">
        <button type="button" className="second wet" disabled={stop.isPending} onClick={() => stop.mutate()}>
          {inspectText.cancel}
        </button>
      </div>
    </section>
  );
}
