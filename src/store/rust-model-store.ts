/** The shop's own rust models, version by version, and which of them a trial is rated by. Nothing kept is changed. */
import type { Kysely } from "kysely";
import type { BrushStroke, ShopModelName } from "../api/photo.ts";
import type { ChosenModel, SavedModel } from "../api/rust-model.ts";
import type { RustModel } from "../core/vision/rust-model.ts";
import { addSetting, settingsNamed } from "./setting-store.ts";
import type { Tables } from "./tables.ts";

export type KeptModel = { saved: SavedModel; model: RustModel; strokes: readonly BrushStroke[] };

export type RustModelStore = {
  /** Newest first. */
  all(): Promise<KeptModel[]>;
  find(of: ShopModelName): Promise<KeptModel | null>;
  /** Kept as the next version of its name; `under` writes that version into what is kept. */
  add(name: string, under: (version: number) => KeptModel, savedAt: string): Promise<KeptModel>;
  chosen(trial: string): Promise<ChosenModel>;
  choose(trial: string, choice: ChosenModel, recordedAt: string): Promise<ChosenModel>;
};

const models = "rust model";
const choiceOf = (trial: string) => `rust model of trial ${trial}`;

export function rustModelStore(db: Kysely<Tables>): RustModelStore {
  const all = async () => (await settingsNamed<KeptModel>(db, models)).reverse();
  const chosen = async (trial: string) =>
    (await settingsNamed<ChosenModel>(db, choiceOf(trial))).at(-1) ?? { shopModel: null };
  return {
    all,
    find: async ({ name, version }) =>
      (await all()).find(({ saved }) => saved.name === name && saved.version === version) ?? null,
    add: (name, under, savedAt) =>
      addSetting<KeptModel>(
        db,
        models,
        (before) => under(1 + before.filter(({ saved }) => saved.name === name).length),
        savedAt,
      ),
    chosen,
    choose: (trial, choice, recordedAt) => addSetting<ChosenModel>(db, choiceOf(trial), () => choice, recordedAt),
  };
}
