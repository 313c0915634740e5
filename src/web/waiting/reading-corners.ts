/** The corners in what waits to be read, photograph by photograph. */
import { usualXMm } from "../../core/vision/tape-cuts.ts";
import type { Corners, SizeMm } from "../inspect/corner-geometry.ts";
import type { LaterReading } from "./waiting-item.ts";

type Asked = { photo: string; which: "face" | "before" | "after"; corners: Corners | null; sizeMm: SizeMm };

export function cornersAsked(reading: LaterReading): Asked[] {
  if (reading.of === "finish colour") {
    const { photo, cornersPx, sizeMm } = reading.request;
    return [{ photo, which: "face", corners: cornersPx, sizeMm }];
  }
  const { before, after, pattern } = reading.request;
  const acrossMm = pattern.form === "cross-cut" ? (pattern.cuts - 1) * pattern.spacingMm : 0;
  const sizeMm = pattern.form === "cross-cut" ? { lengthMm: acrossMm, widthMm: acrossMm } : usualXMm;
  return [
    { photo: before.photo, which: "before", corners: before.cornersPx, sizeMm },
    { photo: after.photo, which: "after", corners: after.cornersPx, sizeMm },
  ];
}

/** As asked before, with these corners; null keeps what was there. */
export function withCorners(reading: LaterReading, set: readonly (Corners | null)[]): LaterReading {
  const [first = null, second = null] = set;
  if (reading.of === "finish colour")
    return { ...reading, request: { ...reading.request, cornersPx: first ?? reading.request.cornersPx } };
  const { before, after } = reading.request;
  return {
    ...reading,
    request: {
      ...reading.request,
      before: { ...before, cornersPx: first ?? before.cornersPx },
      after: { ...after, cornersPx: second ?? after.cornersPx },
    },
  };
}
