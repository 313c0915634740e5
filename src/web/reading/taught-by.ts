/** How much a model was taught in all: its own strokes and those of every version that it refines. */
import type { ShopModelName } from "../../api/photo.ts";
import type { SavedModel } from "../../api/rust-model.ts";

export const sameModel = (one: ShopModelName | null, other: ShopModelName | null): boolean =>
  one?.name === other?.name && one?.version === other?.version;

export function taughtBy(model: SavedModel, all: readonly SavedModel[]): { strokes: number; photographs: number } {
  const photographs = new Set<string>();
  let strokes = 0;
  // Each version refines an earlier one, so this ends.
  for (let one: SavedModel | undefined = model; one; ) {
    photographs.add(one.measurement);
    strokes += one.strokes;
    const { from }: SavedModel = one;
    one = from === null ? undefined : all.find((other) => sameModel(other, from));
  }
  return { strokes, photographs: photographs.size };
}
