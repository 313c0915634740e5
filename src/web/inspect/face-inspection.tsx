/** One face from picture to written-down look; each step is kept on this device. */
import { useCallback, useEffect } from "react";
import type { Photo, PhotoRefusal } from "../../api/photo.ts";
import { keep, readKept } from "../keep/kept.ts";
import { AskedInside } from "../parts/asked.tsx";
import { newId } from "../shop/new-id.ts";
import { inspectText } from "../text/inspect.ts";
import { ByEyeStep } from "./by-eye-step.tsx";
import { startCorners } from "./corner-geometry.ts";
import { CornersStep } from "./corners-step.tsx";
import { FixArea } from "./fix-area.tsx";
import type { InspectedFace } from "./inspected-face.ts";
import { type Inspection, keptInspection, useInspection } from "./inspection-state.ts";
import { keepReads, readsOfTrial } from "./kept-reads-of-trial.ts";
import { LeaveOut } from "./leave-out.tsx";
import { sizeAsRead, useMeasurement } from "./measuring.ts";
import { PictureStep } from "./picture-step.tsx";
import { RefusedStep } from "./refused-step.tsx";
import { ResultStep } from "./result-step.tsx";
import { PhotoPreview, SurfaceStep } from "./surface-step.tsx";
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
  const arrived = useCallback((photo: Photo) => go({ step: "surface", photo }), [go]);
  const measured = useCallback(
    (measurement: string, photo: Photo) => go({ step: "measured", measurement, look: newId(), photo }),
    [go],
  );

  const takePicture = (
    <PictureStep keepKey={face.keepKey} trial={face.trial} onPhoto={arrived} onByEye={() => go({ step: "by eye" })} />
  );

  switch (state.step) {
    case "picture":
      return takePicture;
    case "by eye":
      return <ByEyeStep face={face} onRecorded={recorded} onPhoto={picture} />;
    case "surface":
      return (
        <SurfaceStep
          photo={state.photo}
          face={face}
          reads={readsOfTrial(face.trial)}
          known={isDryRound(face)}
          onDry={() => keep(dryKey(face), true)}
          byHand={() => go(cornersByHand(face, state.photo))}
          go={go}
        />
      );
    case "refused":
      return <RefusedStep state={state}>{takePicture}</RefusedStep>;
    case "corners":
      return (
        <CornersStep
          state={state}
          face={face}
          go={(next) => {
            if (next.step === "corners") keepReads(face.trial, next.reads);
            go(next);
          }}
        />
      );
    case "measuring":
      return <Measuring state={state} face={face} go={go} onDone={measured} />;
    case "measured":
      return <ResultStep state={state} face={face} isLast={isLast} go={go} onRecorded={recorded} />;
    case "fix":
      return <Fixing state={state} face={face} go={go} />;
    case "leave out":
      return <LeavingOut state={state} face={face} go={go} />;
  }
}

/** "Dry and wiped" is asked once for all coupons of a day. */
const dryKey = (face: InspectedFace) => `dry round ${face.trial} ${face.date}`;
const isDryRound = (face: InspectedFace) => readKept(dryKey(face)) === true;

function cornersByHand(face: InspectedFace, photo: Photo, refusal?: PhotoRefusal): Inspection {
  const reads = readsOfTrial(face.trial);
  const corners = refusal?.cornersPx ?? startCorners(photo, sizeAsRead(face.plan.couponSize, reads));
  return { step: "corners", photo, reads, corners, ...(refusal ? { note: refusal.sentence } : {}) };
}

function Measuring(props: {
  state: Extract<Inspection, { step: "measuring" }>;
  face: InspectedFace;
  go: (next: Inspection) => void;
  onDone: (measurement: string, photo: Photo) => void;
}) {
  const { state, face, go, onDone } = props;
  const { photo, corners, reads, white, measurement } = state;
  const refused = useCallback(
    (refusal: PhotoRefusal) =>
      go(
        refusal.why === "no card" || refusal.why === "no coupon" || refusal.why === "white place"
          ? cornersByHand(face, photo, refusal)
          : { step: "refused", photo, reads, refusal },
      ),
    [go, face, photo, reads],
  );
  const done = useCallback(() => onDone(measurement, photo), [onDone, measurement, photo]);
  return (
    <WorkingStep
      job={measurement}
      title={corners === null ? inspectText.findingCard : inspectText.measuring}
      back={inspectText.backToCorners}
      onDone={done}
      onRefused={refused}
      onBack={() =>
        go(
          corners === null
            ? cornersByHand(face, photo)
            : { step: "corners", photo, corners, reads, ...(white ? { white } : {}) },
        )
      }
    >
      <PhotoPreview photo={photo} />
    </WorkingStep>
  );
}

function Fixing(props: {
  state: Extract<Inspection, { step: "fix" }>;
  face: InspectedFace;
  go: (next: Inspection) => void;
}) {
  const { state, face, go } = props;
  const query = useMeasurement(state.measurement);
  const { look } = state;
  const fixed = useCallback((measurement: string) => go({ step: "measured", measurement, look }), [go, look]);
  return (
    <AskedInside query={query}>
      {(measurement) => (
        <FixArea
          measurement={measurement}
          coupon={face.coupon}
          goesOn={{ inspection: face.keepKey, look: null }}
          // What waited went on by itself, in what this device keeps.
          onSent={() => go(keptInspection(readKept(`inspection ${face.keepKey}`)))}
          onFixed={fixed}
          onCancel={() => go({ step: "measured", measurement: state.measurement, look })}
        />
      )}
    </AskedInside>
  );
}

function LeavingOut(props: {
  state: Extract<Inspection, { step: "leave out" }>;
  face: InspectedFace;
  go: (next: Inspection) => void;
}) {
  const { state, face, go } = props;
  const query = useMeasurement(state.measurement);
  const { look } = state;
  const measured = useCallback((measurement: string) => go({ step: "measured", measurement, look }), [go, look]);
  return (
    <AskedInside query={query}>
      {(measurement) => (
        <LeaveOut
          measurement={measurement}
          trial={face.trial}
          first={face.first}
          onMeasured={measured}
          onCancel={() => measured(state.measurement)}
        />
      )}
    </AskedInside>
  );
}
