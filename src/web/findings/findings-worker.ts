/** The page's second pair of hands: takes a trial record, sends back each question's answer as soon as it is there. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { answers, type FindingsMessage, type QuestionAnswer } from "./findings-work.ts";

const send = (message: FindingsMessage) => postMessage(message);

addEventListener("message", ({ data }: MessageEvent<TrialRecord>) => {
  try {
    const done: QuestionAnswer[] = [];
    for (const one of answers(data)) {
      done.push(one);
      send({ answers: done, finished: false });
    }
    send({ answers: done, finished: true });
  } catch (error) {
    send({ failure: error instanceof Error ? error.message : String(error) });
  }
});
