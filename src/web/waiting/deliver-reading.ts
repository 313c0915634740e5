/** Asks the shop to read photographs that it has by now, and writes the answer down. What cannot be read waits for a hand. */
import { colourReadingAnswer } from "../../api/finish-colour.ts";
import type { NewObservation } from "../../api/observation.ts";
import { tapeReadingAnswer } from "../../api/tape-photo.ts";
import { ask, json, Refused } from "../shop/ask.ts";
import { colourRead, tapeRead } from "./observation-read.ts";
import type { WaitingReading } from "./waiting-item.ts";

/** A little more than the server gives itself. */
const readingMs = 150_000;

export async function readByShop(item: WaitingReading): Promise<NewObservation> {
  const { reading } = item;
  const asked = { ...json("POST", reading.request), signal: AbortSignal.timeout(readingMs) };
  if (reading.of === "finish colour") {
    const answer = await ask(colourReadingAnswer, "/api/colour-readings", asked);
    return answer.read ? colourRead(item, reading, answer.reading) : unreadable(answer.sentence);
  }
  const answer = await ask(tapeReadingAnswer, "/api/tape-readings", asked);
  return answer.read ? tapeRead(item, reading, answer.reading) : unreadable(answer.sentence);
}

function unreadable(sentence: string): never {
  throw new Refused({ type: "about:blank", title: sentence, status: 422 });
}
