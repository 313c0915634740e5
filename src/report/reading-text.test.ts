import { describe, expect, test } from "vitest";
import type { TapeTest } from "../core/trial/trial-record.ts";
import { tapeText } from "./reading-text.ts";

const photo: NonNullable<NonNullable<TapeTest["details"]>["photo"]> = {
  ...{ before: "a", after: "b", overlay: "c", method: "m", removedPercent: 20.72, span: { from: 19, to: 22 } },
  mapPercents: [],
  tapeClass: "2B",
  isoClass: 3,
};
const details: NonNullable<TapeTest["details"]> = {
  cut: { form: "cross-cut", spacingMm: 2, cuts: 6 },
  tape: { name: "", qualified: false },
  parted: "within the coating",
  eyeClass: "3B",
  photo,
  counts: "photo",
  painted: null,
};
const read = (tapeClass: TapeTest["tapeClass"], told?: TapeTest["details"]) =>
  tapeText({
    ...{ kind: "tape test", coupon: "1", when: null, tapeClass, blind: true, note: "" },
    ...(told ? { details: told } : {}),
  });

describe("a tape test in words", () => {
  test.each<[string, string]>([
    [read("4B"), "class 4B"],
    [
      read("2B", details),
      "class 2B, 20.7 % by photographs (the eye: 3B), parted: within the coating, by comparison only",
    ],
    [
      read("3B", { ...details, counts: "eye", tape: { name: "", qualified: true } }),
      "class 3B by eye (photographs: 2B), parted: within the coating",
    ],
    [read("5B", { ...details, photo: null, counts: "eye", parted: null }), "class 5B, by comparison only"],
  ])("%s", (said, expected) => expect(said).toBe(expected));
});
