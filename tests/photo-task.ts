import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import type { MeasureTask } from "../src/server/photos/measure-worker.ts";

/** A photograph to measure, for tests whose worker is a stand-in and goes by the path alone. */
export const photoTask = (photoPath: string): MeasureTask => ({
  kind: "measure",
  photoPath,
  request: {
    ...{ id: `of ${photoPath}`, photo: "", cornersPx: null },
    ...{ sizeMm: { lengthMm: 100, widthMm: 60 }, edgeBandMm: 5 },
  },
  printScale: 1,
  model: rustModel1,
  first: null,
  outDir: "",
});
