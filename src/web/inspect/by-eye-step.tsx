/** A look without a photograph: the percent as somebody judges it. */
import { Link } from "wouter";
import { NumberField, TickField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { inspectText } from "../text/inspect.ts";
import { ObserveForm } from "../trial/observe-form.tsx";
import { type InspectedFace, lookOf } from "./inspected-face.ts";
import { LookDate } from "./look-date.tsx";

export function ByEyeStep(props: { face: InspectedFace; onRecorded: () => void; onPhoto: () => void }) {
  const { face, onRecorded, onPhoto } = props;
  return (
    <section className="inspect-step">
      <ObserveForm
        trialId={face.trial}
        about={`look by eye ${face.keepKey}`}
        start={() => ({ percent: "", edge: "", knew: false })}
        fill={({ percent, edge, knew }) => {
          const rustedPercent = typedPercent(percent);
          const edgePercent = edge.trim() === "" ? null : typedPercent(edge);
          const edgeWrong = edge.trim() !== "" && edgePercent === null && inspectText.percentWrong;
          if (rustedPercent === null || edgeWrong)
            return {
              missing: {
                rustedPercent: rustedPercent === null && inspectText.percentWrong,
                edgePercent: edgeWrong,
              },
            };
          const look = lookOf(face, { rustedPercent, edgePercent, how: "eye", measurement: null });
          return { bodies: [{ ...look, blind: face.blind && !knew }] };
        }}
        shown={["rustedPercent", "edgePercent", "when"]}
        fields={({ form, change, errorAt }) => (
          <>
            <NumberField
              label={inspectText.percent}
              hint={inspectText.percentHint}
              unit="%"
              value={form.percent}
              onType={(percent) => change({ percent })}
              error={errorAt("rustedPercent")}
            />
            <NumberField
              label={inspectText.edgePercent}
              unit="%"
              value={form.edge}
              onType={(edge) => change({ edge })}
              error={errorAt("edgePercent")}
            />
            {face.blind && (
              <TickField label={inspectText.knew} ticked={form.knew} onTick={(knew) => change({ knew })} />
            )}
            <LookDate date={face.date} onDate={face.onDate} error={errorAt("when")} />
          </>
        )}
        submit={inspectText.record}
        onWritten={onRecorded}
      />
      <p className="hint">
        <Link href="/eye">{inspectText.testEye}</Link>
      </p>
      <button type="button" className="quiet" onClick={onPhoto}>
        {inspectText.withPhoto}
      </button>
    </section>
  );
}

/** 0 to 100 as typed, with a point or a comma; null when it is no such number. */
export function typedPercent(typed: string): number | null {
  const value = typedNumber(typed.replace("%", ""));
  return value !== null && value >= 0 && value <= 100 ? value : null;
}
