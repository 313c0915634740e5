/** How far the inspection of one face has come; kept on this device so that a reload goes on where it stopped. */
import { useCallback, useState } from "react";
import * as z from "zod/mini";
import { brushStroke, cornersPx, photo, photoRefusal, pointPx } from "../../api/photo.ts";
import { forget, keep, readKept } from "../keep/kept.ts";

/** How the number reads: along the coupon's length or across it. */
const reads = z.enum(["along", "across"]);
const uuid = z.uuid();

const inspection = z.discriminatedUnion("step", [
  z.strictObject({ step: z.literal("picture") }),
  z.strictObject({ step: z.literal("by eye") }),
  z.strictObject({ step: z.literal("surface"), photo }),
  // `note`: why the card did not show where the coupon lies.
  // `white`: something white or grey in the picture, where one was pointed at.
  z.strictObject({
    step: z.literal("corners"),
    photo,
    corners: cornersPx,
    reads,
    white: z.optional(pointPx),
    note: z.optional(z.string()),
  }),
  // Corners null: the measuring card shows them.
  z.strictObject({
    step: z.literal("measuring"),
    photo,
    corners: z.nullable(cornersPx),
    reads,
    white: z.optional(pointPx),
    measurement: uuid,
  }),
  z.strictObject({ step: z.literal("refused"), photo, reads, refusal: photoRefusal }),
  // The look's id is made once: sent twice after a broken connection, it is still one look.
  // With the photograph, its corners can be set again.
  z.strictObject({ step: z.literal("measured"), measurement: uuid, look: uuid, photo: z.optional(photo) }),
  z.strictObject({ step: z.literal("fix"), measurement: uuid, look: uuid }),
  z.strictObject({ step: z.literal("leave out"), measurement: uuid, look: uuid }),
]);
export type Inspection = z.infer<typeof inspection>;
export type Reads = z.infer<typeof reads>;

export function useInspection(key: string) {
  const [state, setState] = useState<Inspection>(() => keptInspection(readKept(`inspection ${key}`)));
  const go = useCallback(
    (next: Inspection) => {
      if (next.step === "picture") forget(`inspection ${key}`);
      else keep(`inspection ${key}`, next);
      setState(next);
    },
    [key],
  );
  return [state, go] as const;
}

/** What was kept, where it still has a shape that this page knows. */
export function keptInspection(kept: unknown): Inspection {
  const known = inspection.safeParse(kept);
  return known.success ? known.data : { step: "picture" };
}

/** Strokes of a half-done correction. */
export function useStrokes(key: string) {
  const [strokes, setStrokes] = useState(() => {
    const kept = z.array(brushStroke).safeParse(readKept(`strokes ${key}`));
    return kept.success ? kept.data : [];
  });
  const change = (next: typeof strokes) => {
    if (next.length === 0) forget(`strokes ${key}`);
    else keep(`strokes ${key}`, next);
    setStrokes(next);
  };
  return [strokes, change] as const;
}
