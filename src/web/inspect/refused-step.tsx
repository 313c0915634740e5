/** A photograph that is kept and not rated: what is wrong with it, what was measured, and what to do next. */
import type { ReactNode } from "react";
import type { PhotoRefusal } from "../../api/photo.ts";
import { gateValueText } from "../../core/vision/photo-gate.ts";
import { inspectText } from "../text/inspect.ts";
import type { Inspection } from "./inspection-state.ts";
import { PhotoPreview } from "./surface-step.tsx";

type RefusedState = Extract<Inspection, { step: "refused" }>;

/** `children`: how to take another, one press away from the camera. */
export function RefusedStep({ state, children }: { state: RefusedState; children: ReactNode }) {
  const { photo, refusal } = state;
  const wrong = refusal.checks.filter(({ passes }) => !passes);
  return (
    <section className="inspect-step">
      <p className="sentence" role="alert">
        {inspectText.notRated}
      </p>
      {wrong.length === 0 && <p>{refusal.sentence}</p>}
      {wrong.map((check) => (
        <p key={check.what}>
          <b>{check.says}</b> {check.advice}
        </p>
      ))}
      {children}
      <PhotoPreview photo={photo} />
      {refusal.checks.length > 0 && <GateTable checks={refusal.checks} />}
    </section>
  );
}

/** Every check with its value and its limit; a mark and a word tell which one failed. */
export function GateTable({ checks }: { checks: PhotoRefusal["checks"] }) {
  return (
    <details className="more gate">
      <summary>{inspectText.gate}</summary>
      <table>
        <thead>
          <tr>
            <th>{inspectText.gateCheck}</th>
            <th className="number">{inspectText.gateMeasured}</th>
            <th className="number">{inspectText.gateLimit}</th>
            <th>{inspectText.gateResult}</th>
          </tr>
        </thead>
        <tbody>
          {checks.map((check) => (
            <tr key={check.what}>
              <td>{inspectText.gateNames[check.what]}</td>
              <td className="number">{gateValueText(check)}</td>
              <td className="number">
                {inspectText.gateBounds[check.bound]} {check.limit} {check.unit}
              </td>
              <td>{check.passes ? inspectText.gatePasses : <b>{inspectText.gateFails}</b>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
