/** What two devices wrote down differently, in words: the thing, and what one of them read. */
import type { Look, OneReading, Plan } from "../core/trial/trial-record.ts";
import { lookReadingText } from "./figures/figure-text.ts";
import { finishText } from "./finish-text.ts";
import { readValueText, tapeText, timeText, wearText } from "./reading-text.ts";

/** "look at coupon 3, front" and "2 % rusted". */
export function differingText(
  body: Look | OneReading,
  { questions, couponSize }: Pick<Plan, "questions" | "couponSize">,
): { what: string; reading: string } {
  const of = `of coupon ${body.coupon}`;
  switch (body.kind) {
    case "look":
      return { what: `look at coupon ${body.coupon}, ${body.face},`, reading: lookReadingText(body) };
    case "tape test":
      return { what: `tape test ${of}`, reading: tapeText(body) };
    case "first rust":
      return {
        what: `time to first rust ${of}`,
        reading: timeText({ left: body.leftDays, right: body.rightDays }, "days"),
      };
    case "wear test":
      return { what: `wear test${body.place === null ? "" : ` on the ${body.place}`} ${of}`, reading: wearText(body) };
    case "value": {
      const asked = questions.find((one) => one.response === "value" && one.name === body.name);
      return {
        what: `${body.name} ${of}`,
        reading: readValueText(body.value, asked?.response === "value" ? asked : null),
      };
    }
    case "weighing":
      return { what: `weighing ${of}, ${body.state},`, reading: `${body.massG} g` };
    case "finish colour":
      return { what: `finish colour ${of}, ${body.state},`, reading: finishText(body.reading, couponSize) };
  }
}
