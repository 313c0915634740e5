/** Readings behind a declared response that two devices wrote down differently, with nobody having said yet which stands. */
import type { DeclaredQuestion } from "./declared-question.ts";
import { saysOtherwise } from "./read-twice.ts";
import type { OneReading, TrialRecord } from "./trial-record.ts";
import { statesOf } from "./weighed-as.ts";

/** How many. */
export function undecidedReadings({ twice }: TrialRecord, declared: DeclaredQuestion): number {
  return twice.filter((pair) => saysOtherwise(pair) && answers(pair.counts.body, declared)).length;
}

function answers(body: OneReading, declared: DeclaredQuestion): boolean {
  switch (body.kind) {
    case "tape test":
      return declared.response === "tape class";
    case "first rust":
      return declared.response === "time to first rust";
    case "wear test":
      return declared.response === "strokes to breakthrough" && declared.place === body.place;
    case "value":
      return declared.response === "value" && declared.name === body.name;
    case "finish colour":
      return declared.response === "value" && declared.seen?.state === body.state;
    case "weighing":
      return (
        declared.response === "value" &&
        declared.weighed !== undefined &&
        statesOf[declared.weighed].includes(body.state)
      );
  }
}
