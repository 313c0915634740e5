/** The page's second pair of hands: takes a trial record, sends back each question's answer as soon as it is there. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { answers, type FindingsMessage, type QuestionAnswer } from "./findings-work.ts";

const send = (message: FindingsMessage) => postMessage(message);

addEventListener("message", ({ data }: MessageEvent<TrialRecord>) => {
  try {
    const { length } = data.plan.questions;
    let last: QuestionAnswer[] = [];
    for (const done of answers(data)) {
      last = done;
      send({ answers: done, finished: done.length === length });
    }
    if (length === 0) send({ answers: last, finished: true });
  } catch (error) {
    send({ failure: error instanceof Error ? error.message : String(error) });
  }
});
