import { describe, expect, test } from "vitest";
import { hueLine } from "./hue-line.ts";
import { type SideStrip, stripOutsideMm, stripStepMm, stripSteps } from "./side-strips.ts";

/** Light and hue by mm from the rough side, the same on every line. */
function strip(hueOf: (mm: number) => number): SideStrip {
  const linesAtMm = Float64Array.from({ length: 64 }, (_, line) => line - 31.5);
  const hue = new Float32Array(64 * stripSteps);
  for (let at = 0; at < hue.length; at++) hue[at] = hueOf((at % stripSteps) * stripStepMm - stripOutsideMm);
  return {
    middle: [0, 0],
    along: [1, 0],
    inwards: [0, 1],
    lengthMm: 72,
    linesAtMm,
    hue,
    log: new Float32Array(hue.length),
  };
}

describe("where the paper's hue ends", () => {
  test.each([
    // edge mm  paper   steel   why
    [0, 0, 0.08, "steel is bluer"],
    [0.85, -0.19, -0.13, "in warm light"],
    [-1.2, 0.1, 0.02, "or redder"],
  ])("at %d mm, from %d to %d: %s", (edgeMm, paper, steel) => {
    const line = hueLine(
      strip((mm) => (mm < edgeMm ? paper : steel)),
      0,
    )!;
    expect(line.offsetMm).toBeCloseTo(edgeMm, 0);
    expect(Math.abs(line.offsetMm - edgeMm)).toBeLessThanOrEqual(stripStepMm);
    expect(line.strength).toBeCloseTo(Math.abs(steel - paper), 3);
    expect(line.share).toBe(1);
  });

  test("a blur is crossed halfway", () =>
    expect(
      hueLine(
        strip((mm) => 0.08 * Math.min(1, Math.max(0, mm + 0.5))),
        0,
      )!.offsetMm,
    ).toBeCloseTo(0, 1));

  test("one odd row outside is no coupon", () =>
    expect(
      hueLine(
        strip((mm) => (mm > 1 || (mm > -1 && mm < -0.8) ? 0.08 : 0)),
        0,
      )!.offsetMm,
    ).toBeCloseTo(1, 0));

  test("grey on grey has no hue to tell by", () =>
    expect(
      hueLine(
        strip((mm) => (mm < 0 ? 0 : 0.02)),
        0,
      ),
    ).toBeNull());
});
