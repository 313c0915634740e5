/** The worker thread of photo measurement: one task in, one result out, progress as messages on the way. */
import { parentPort } from "node:worker_threads";
import type { BrushStroke, MeasurementRequest, PhotoRefusal } from "../../api/photo.ts";
import type { RustModel } from "../../core/vision/rust-model.ts";
import { correctMeasurement, type MeasuredPhoto, measurePhoto } from "./measure-photo.ts";

export type MeasureTask =
  | {
      kind: "measure";
      photoPath: string;
      request: MeasurementRequest;
      printScale: number;
      model: RustModel;
      /** The face's first photograph, square on; null where none is to be compared. */
      first: { measurement: string; rectifiedPath: string } | null;
      outDir: string;
    }
  | {
      kind: "correct";
      /** The files, method and scale of the measurement that is being corrected. */
      rectifiedPath: string;
      maskPath: string;
      method: string;
      pxPerMm: number;
      request: MeasurementRequest;
      strokes: BrushStroke[];
      outDir: string;
    };

/** Run by its name in a thread of the same kind. */
export { adaptToStrokes as adapt } from "./adapt-model.ts";

/** Posted while a task runs; `measurement` is the id in its request. */
export type MeasureProgress = { measurement: string; progress: number };

export default async function work(task: MeasureTask): Promise<MeasuredPhoto | PhotoRefusal> {
  const progress = (share: number) => {
    const message: MeasureProgress = { measurement: task.request.id, progress: share };
    parentPort?.postMessage(message);
  };
  return task.kind === "measure" ? measurePhoto({ ...task, progress }) : correctMeasurement({ ...task, progress });
}
