import { describe, expect, test } from "vitest";
import type { TapePhotoReading } from "../../core/trial/tape-test.ts";
import type { ColourReading, TapeTest } from "../../core/trial/trial-record.ts";
import { colourRead, tapeRead } from "./observation-read.ts";

const written = { id: "3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11", by: "Ines", corrects: { id: "a", why: "read later" } };
const body: TapeTest = {
  ...{ kind: "tape test", coupon: "3", when: { date: "2026-03-01" }, tapeClass: "5B", blind: true, note: "" },
  details: {
    ...{ cut: { form: "cross-cut", spacingMm: 2, cuts: 6 }, tape: { name: "any", qualified: false } },
    ...{ parted: null, eyeClass: "5B", photo: null, counts: "eye", painted: null },
  },
};
const photo = { tapeClass: "2B", removedPercent: 24 } as TapePhotoReading;

describe("a tape test read once the shop was reached", () => {
  test.each([
    // whose class counts, class, where the film parted
    ["photo", "2B", "within the primer"],
    ["eye", "5B", null],
  ] as const)("the %s's class counts: %s, parted %s", (counts, tapeClass, parted) => {
    const read = tapeRead(
      written,
      { of: "tape test", request: {} as never, body, counts, parted: "within the primer" },
      photo,
    );
    expect(read).toMatchObject(written);
    expect(read.body).toMatchObject({ coupon: "3", tapeClass, details: { eyeClass: "5B", photo, counts, parted } });
  });
});

test("a colour is written down with what was read", () => {
  const colour = {
    kind: "finish colour",
    coupon: "3",
    when: { date: "2026-03-01" },
    state: "oiled",
    note: "",
  } as const;
  const reading = { method: "any" } as ColourReading;
  expect(colourRead(written, { of: "finish colour", request: {} as never, body: colour }, reading)).toEqual({
    ...written,
    body: { ...colour, reading },
  });
});
