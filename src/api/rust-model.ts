/** A shop's own rust models: strokes on a measured photograph, what they would change, and what was kept of them. */
import * as z from "zod/mini";
import { note } from "./observation.ts";
import { brushStroke, shopModelName } from "./photo.ts";

const strokesOfBothKinds = z.array(brushStroke).check(
  z.maxLength(200),
  z.refine(
    (strokes) => (["rust", "not rust"] as const).every((kind) => strokes.some(({ paint }) => paint === kind)),
    "expected at least one stroke on rust and one on what is not rust",
  ),
);

/** What the strokes would make of this photograph. `from`: the shop's model they refine; left out: the one that comes with the program. */
export const strokesToTry = z.strictObject({ strokes: strokesOfBothKinds, from: z.optional(shopModelName) });

export const triedStrokes = z.strictObject({
  rustedPercent: z.number(),
  edgePercent: z.nullable(z.number()),
  d610: z.int(),
  /** The photograph with the new outline, a JPEG as data URL. */
  overlay: z.string(),
});
export type TriedStrokes = z.infer<typeof triedStrokes>;

/** To be kept under a name; a name that is there already gets its next version. */
export const modelToSave = z.strictObject({
  name: shopModelName.shape.name,
  /** For which finish and in which light, in the user's words. */
  finishAndLight: note.check(z.trim(), z.minLength(1)),
  by: z.string().check(z.trim(), z.minLength(1), z.maxLength(200)),
  measurement: z.uuid(),
  strokes: strokesOfBothKinds,
  from: z.optional(shopModelName),
});

export const savedModel = z.strictObject({
  ...shopModelName.shape,
  finishAndLight: z.string(),
  by: z.string(),
  /** The measurement whose photograph was stroked, and how many strokes. */
  measurement: z.uuid(),
  strokes: z.int(),
  from: z.nullable(shopModelName),
  savedAt: z.string(),
});
export type SavedModel = z.infer<typeof savedModel>;

/** A saved model with the trials whose photographs are read by it now. */
export const listedModel = z.extend(savedModel, {
  trials: z.array(z.strictObject({ id: z.uuid(), name: z.string() })),
});
export type ListedModel = z.infer<typeof listedModel>;

/** Which model a trial's photographs are rated by; null: the one that comes with the program. */
export const chosenModel = z.strictObject({ shopModel: z.nullable(shopModelName) });
export type ChosenModel = z.infer<typeof chosenModel>;

/** The choice, and how a rating made by it now names its method. */
export const chosenReading = z.extend(chosenModel, { method: z.string() });
