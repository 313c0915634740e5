import { expect, test } from "vitest";
import { cutSizeSentence } from "./cut-size.ts";

const lattice = { form: "cross-cut", cuts: 6, spacingMm: 2 } as const;

test.each([
  // sides by the card, mm; whether they agree with 6 cuts 2 mm apart: 10 mm
  [10, 10, true],
  [10.9, 9.2, true],
  [11.3, 10, false],
  [10, 5, false],
])("%d by %d mm against 10: agrees? %s", (lengthMm, widthMm, agrees) =>
  expect(cutSizeSentence({ lengthMm, widthMm }, lattice) === null).toBe(agrees),
);

test("the sentence names what was measured and what was due", () =>
  expect(cutSizeSentence({ lengthMm: 5.1, widthMm: 5 }, lattice)).toMatch(
    /5\.1 and 5\.0 mm apart; 6 cuts 2 mm apart make 10/,
  ));

test("an X may be of any size", () =>
  expect(cutSizeSentence({ lengthMm: 30, widthMm: 9 }, { form: "x-cut" })).toBeNull());
