/** One face from picture to written-down look; each step is kept on this device. */
import { useCallback, useEffect } from "react";
import type { Photo } from "../../api/photo.ts";
import { keep, readKept } from "../keep/kept.ts";
import { Asked } from "../parts/asked.tsx";
import { newId } from "../shop/new-id.ts";
import { inspectText } from "../text/inspect.ts";
import { ByEyeStep } from "./by-eye-step.tsx";
import { startCorners } from "./corner-geometry.ts";
import { CornersStep } from "./corners-step.tsx";
import { FixArea } from "./fix-area.tsx";
import type { InspectedFace } from "./inspected-face.ts";
import { type Inspection, type Reads, useInspection } from "./inspection-state.ts";
import { sizeAsRead, useMeasurement } from "./measuring.ts";
import { PictureStep } from "./picture-step.tsx";
import { ResultStep } from "./result-step.tsx";
import { WorkingStep } from "./working-step.tsx";

export function FaceInspection(props: { face: InspectedFace; isLast: boolean; onRecorded: () => void }) {
  const { face, isLast, onRecorded } = props;
  const [state, go] = useInspection(face.keepKey);
  // A new step begins at its top, wherever the last one was left.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the step is what is waited for
  useEffect(() => {
    scrollTo({ top: 0, behavior: "instant" });
  }, [state.step]);
  const picture = () => go({ step: "picture" });
  const recorded = () => {
    picture();
    onRecorded();
  };
  const measured = useCallback((measurement: string) => go({ step: "measured", measurement, look: newId() }), [go]);

  switch (state.step) {
    case "picture":
      return (
        <PictureStep
          keepKey={face.keepKey}
          onPhoto={(photo) => go(firstCorners(face, photo))}
          onByEye={() => go({ step: "by eye" })}
        />
      );
    case "by eye":
      return <ByEyeStep face={face} onRecorded={recorded} onPhoto={picture} />;
    case "corners":
      return (
        <CornersStep
          state={state}
          plan={face.plan}
          go={(next) => {
            if (next.step === "corners") keep(readsKey(face), next.reads);
            go(next);
          }}
        />
      );
    case "measuring":
      return <Measuring state={state} go={go} onDone={measured} />;
    case "measured":
      return <ResultStep state={state} face={face} isLast={isLast} go={go} onRecorded={recorded} />;
    case "fix":
      return <Fixing state={state} go={go} />;
  }
}

/** Coupons of one trial carry their number the same way round. */
const readsKey = (face: InspectedFace) => `number reads ${face.trial}`;

function firstCorners(face: InspectedFace, photo: Photo): Inspection {
  const reads: Reads = readKept(readsKey(face)) === "across" ? "across" : "along";
  return { step: "corners", photo, reads, corners: startCorners(photo, sizeAsRead(face.plan.couponSize, reads)) };
}

function Measuring(props: {
  state: Extract<Inspection, { step: "measuring" }>;
  go: (next: Inspection) => void;
  onDone: (measurement: string) => void;
}) {
  const { state, go, onDone } = props;
  const { photo, corners, reads, measurement } = state;
  const done = useCallback(() => onDone(measurement), [onDone, measurement]);
  return (
    <WorkingStep
      job={measurement}
      title={inspectText.measuring}
      back={inspectText.backToCorners}
      onDone={done}
      onBack={() => go({ step: "corners", photo, corners, reads })}
    />
  );
}

function Fixing({ state, go }: { state: Extract<Inspection, { step: "fix" }>; go: (next: Inspection) => void }) {
  const query = useMeasurement(state.measurement);
  const { look } = state;
  const fixed = useCallback((measurement: string) => go({ step: "measured", measurement, look }), [go, look]);
  return (
    <Asked query={query}>
      {(measurement) => (
        <FixArea
          measurement={measurement}
          onFixed={fixed}
          onCancel={() => go({ step: "measured", measurement: state.measurement, look })}
        />
      )}
    </Asked>
  );
}
