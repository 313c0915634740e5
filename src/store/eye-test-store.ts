/** What inspectors read on plates of known rust. Nothing kept is changed. */
import type { Kysely } from "kysely";
import type { EyeTest } from "../api/eye-test.ts";
import { addSetting, settingsNamed } from "./setting-store.ts";
import type { Tables } from "./tables.ts";

export type EyeTestStore = {
  /** In the order they came in. */
  all(): Promise<EyeTest[]>;
  add(test: EyeTest): Promise<EyeTest>;
};

const tests = "eye test";

export function eyeTestStore(db: Kysely<Tables>): EyeTestStore {
  return {
    // Sent again after silence, it is the same test: the first of an id counts.
    all: async () =>
      [...new Map((await settingsNamed<EyeTest>(db, tests)).reverse().map((one) => [one.id, one])).values()].reverse(),
    add: (test) =>
      addSetting<EyeTest>(db, tests, (before) => before.find((one) => one.id === test.id) ?? test, test.recordedAt),
  };
}
