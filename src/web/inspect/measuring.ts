/** Long work on a photograph: asked for, watched, stopped. The measurement that comes of it has the job's id. */
import { useQuery } from "@tanstack/react-query";
import {
  type CouponSurface,
  type HandCorrection,
  handCorrection,
  job,
  type MeasurementRequest,
  measurement,
  measurementRequest,
  type Photo,
} from "../../api/photo.ts";
import { ask, json } from "../shop/ask.ts";
import type { Corners, Point, SizeMm } from "./corner-geometry.ts";
import { comparedWith, isSameSize } from "./earlier-photographs.ts";
import type { InspectedFace } from "./inspected-face.ts";
import type { Reads } from "./inspection-state.ts";

const askAgainMs = 400;

export const useMeasurement = (id: string) =>
  useQuery({
    queryKey: ["measurement", id],
    queryFn: () => ask(measurement, `/api/measurements/${id}`),
    staleTime: Number.POSITIVE_INFINITY,
  });

/** The live line tells of changes too; asking as well keeps the progress moving where it is broken. */
export const useJob = (id: string | null) =>
  useQuery({
    queryKey: ["job", id],
    queryFn: () => ask(job, `/api/jobs/${id}`),
    enabled: id !== null,
    staleTime: 0,
    refetchInterval: ({ state }) => (state.data && isOver(state.data.state) ? false : askAgainMs),
  });

const isOver = (state: string) => state === "done" || state === "failed" || state === "cancelled";

export const startMeasuring = (request: MeasurementRequest) =>
  ask(job, "/api/measurements", json("POST", measurementRequest.parse(request)));

export const startCorrecting = (from: string, correction: HandCorrection, signal: AbortSignal) =>
  ask(job, `/api/measurements/${from}/corrections`, { ...json("POST", handCorrection.parse(correction)), signal });

export const stopJob = (id: string) => ask(job, `/api/jobs/${id}`, { method: "DELETE" });

/** The coupon's size as its number reads: the length along the first side, from corner 1 to corner 2. */
export function sizeAsRead(couponSize: SizeMm, reads: Reads): SizeMm {
  const { lengthMm, widthMm } = couponSize;
  return reads === "along" ? { lengthMm, widthMm } : { lengthMm: widthMm, widthMm: lengthMm };
}

/** Corners null: the card in the picture shows them. A request carries what plan, inspector and earlier looks know of the coupon. */
export function requestFor(asked: {
  id: string;
  photo: Photo;
  corners: Corners | null;
  /** Something white or grey in the picture, where one was pointed at. */
  white?: Point | undefined;
  reads: Reads;
  face: Pick<InspectedFace, "plan" | "first" | "leftOut" | "shopModel">;
  surface: CouponSurface;
}): MeasurementRequest {
  const { id, photo, corners, white, reads, face, surface } = asked;
  const { plan, first, leftOut, shopModel } = face;
  const sizeMm = sizeAsRead(plan.couponSize, reads);
  return {
    id,
    photo: photo.hash,
    cornersPx: corners,
    ...(white ? { neutralPx: white } : {}),
    sizeMm,
    edgeBandMm: plan.edgeBandMm,
    thicknessMm: plan.couponSize.thicknessMm,
    surface,
    ...(shopModel ? { shopModel } : {}),
    ...comparedWith(first, { cornersPx: corners, sizeMm }),
    ...(leftOut && isSameSize(leftOut.sizeMm, sizeMm) ? leftOut.places : {}),
  };
}

/** Address of a picture in the shop, whole or in one of the few small widths. */
export const pictureUrl = (hash: string, widthPx?: 96 | 160 | 320 | 640 | 1280) =>
  `/api/photos/${hash}${widthPx ? `?width=${widthPx}` : ""}`;
