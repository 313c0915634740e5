import { describe, expect, test } from "vitest";
import { refusalInWords, refusalWords } from "./refusal-words.ts";

describe("a refusal in the page's words", () => {
  test.each([
    // as the server says it, as the page does
    [
      "rustedPercent is 120; expected a percentage from 0 to 100",
      "rusted, % is 120; expected a percentage from 0 to 100",
    ],
    ["body.rustedPercent is 120; expected at most 100", "rusted, % is 120; expected at most 100"],
    ["body.when.date is soon; expected a date as 2026-05-31", "date is soon; expected a date as 2026-05-31"],
    [
      "details.painted.steelTempC is 900; expected at most 300",
      "details painted steel temp, °C is 900; expected at most 300",
    ],
    ["coupons[2] is 99; expected a coupon of this trial", "coupons 2 is 99; expected a coupon of this trial"],
    ["No measuring card was found in this picture.", "No measuring card was found in this picture."],
    ["the photograph is too large; expected at most 60 MB", "the photograph is too large; expected at most 60 MB"],
  ])("%s", (said, words) => expect(refusalInWords(said)).toBe(words));

  const refused = { type: "about:blank", title: "Unprocessable Entity", status: 422 };
  test("each field once, without its pointer", () => {
    const errors = [{ pointer: "/body/rustedPercent", detail: "rustedPercent is 120; expected a percentage" }];
    expect(refusalWords({ ...refused, detail: "any", errors })).toBe("rusted, % is 120; expected a percentage");
  });
  test("no field: its own sentence, or at least its title", () => {
    expect(refusalWords({ ...refused, detail: "massG is 0; expected more" })).toBe("mass, g is 0; expected more");
    expect(refusalWords(refused)).toBe("Unprocessable Entity");
  });
});
