/** How far a trial has come, as the line in its page's margin shows it. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";

export const stageIds = [
  "question",
  "treatments",
  "size",
  "rack",
  "done",
  "outdoors",
  "looks",
  "tests",
  "findings",
] as const;
export type StageId = (typeof stageIds)[number];

export type Stage = { id: StageId; state: "reached" | "now" | "ahead" };

/** Everything up to the last stage at which something was written down is behind; that one is where it stands. */
export function stagesOf(record: TrialRecord): Stage[] {
  const now = stageIds.findLastIndex((id) => begun(record, id));
  return stageIds.map((id, at) => ({ id, state: at < now ? "reached" : at === now ? "now" : "ahead" }));
}

function begun(record: TrialRecord, id: StageId): boolean {
  if (id === "done") return record.applications.length > 0 || record.deviations.length > 0;
  if (id === "outdoors") return record.putOut.length > 0;
  if (id === "looks") return record.looks.length > 0;
  if (id === "tests") return hasTests(record);
  if (id === "findings") return record.unblinded;
  return true;
}

export const hasTests = ({
  tapeTests,
  wearTests,
  values,
  weighings,
  finishColours,
  firstRustTimes,
}: TrialRecord): boolean =>
  [tapeTests, wearTests, values, weighings, finishColours, firstRustTimes].some((tests) => tests.length > 0);
