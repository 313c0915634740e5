/** The pages around a measured photograph, in a real browser: places left out, the first photograph, strokes, a face over time, many at once. */
import { onBothScreens } from "./both-screens.ts";
import { takeMany } from "./walk-batch.ts";
import { compareFaces } from "./walk-faces.ts";
import { leavePlacesOut } from "./walk-leave-out.ts";
import { teachByStrokes } from "./walk-teach.ts";

onBothScreens("photographs in the page", 120_000, {
  "places are left out": leavePlacesOut,
  "the reading is taught": teachByStrokes,
  "faces are compared": compareFaces,
  "many photographs at once": takeMany,
});
