/** Asked once in a round: is the coupon dry and wiped as the plan says? Wet, oily or dusty ones are photographed, not rated. */
import { useMutation } from "@tanstack/react-query";
import { useEffect, useRef } from "react";
import { type CouponSurface, couponSurfaces, type Photo } from "../../api/photo.ts";
import { cardForCoupon } from "../../core/vision/measuring-card.ts";
import { Trouble } from "../parts/trouble.tsx";
import { newId } from "../shop/new-id.ts";
import { inspectText } from "../text/inspect.ts";
import type { InspectedFace } from "./inspected-face.ts";
import type { Inspection, Reads } from "./inspection-state.ts";
import { pictureUrl, requestFor, startMeasuring } from "./measuring.ts";

export function SurfaceStep(props: {
  photo: Photo;
  face: InspectedFace;
  reads: Reads;
  /** Dry and wiped was said before in this round: nothing is asked. */
  known: boolean;
  onDry: () => void;
  byHand: () => void;
  go: (next: Inspection) => void;
}) {
  const { photo, face, reads, known, onDry, byHand, go } = props;
  const start = useMutation({
    mutationFn: (surface: CouponSurface) =>
      startMeasuring(requestFor({ id: newId(), photo, corners: null, reads, face, surface })),
    onSuccess: (job) => go({ step: "measuring", photo, corners: null, reads, measurement: job.id }),
  });
  const choose = (surface: CouponSurface) => {
    if (surface !== "dry and wiped") return start.mutate(surface);
    onDry();
    // Too large for any card: nothing to look for.
    if (cardForCoupon(face.plan.couponSize) === null) return byHand();
    start.mutate(surface);
  };
  const begun = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the step is entered
  useEffect(() => {
    if (!known || begun.current) return;
    begun.current = true;
    choose("dry and wiped");
  }, []);
  if (known && start.error === null)
    return (
      <section className="inspect-step" aria-live="polite">
        <p className="sentence">{inspectText.findingCard}</p>
        <PhotoPreview photo={photo} />
      </section>
    );
  return (
    <section className="inspect-step">
      <p className="sentence">{inspectText.surface}</p>
      <div className="surface-choice">
        {couponSurfaces.map((surface, at) => (
          <button
            key={surface}
            type="button"
            className={at === 0 ? "wet" : "second wet"}
            disabled={start.isPending}
            onClick={() => choose(surface)}
          >
            {inspectText.surfaces[surface]}
          </button>
        ))}
      </div>
      <Trouble error={start.error} />
      <PhotoPreview photo={photo} />
    </section>
  );
}

/** The photograph as it arrived, its place kept before it is there. */
export function PhotoPreview({ photo }: { photo: Photo }) {
  return (
    <img
      className="photo-preview"
      style={{ aspectRatio: `${photo.widthPx} / ${photo.heightPx}` }}
      src={pictureUrl(photo.hash, 640)}
      alt={inspectText.previewAlt}
    />
  );
}
