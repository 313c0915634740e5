import { describe, expect, test } from "vitest";
import { asSetByFinger, renderTape, type TapeScene } from "../../../tests/rendered-tape.ts";
import { seededRandom } from "../numeric/random.ts";
import type { CutPattern } from "./tape-cuts.ts";
import { tapeReading } from "./tape-reading.ts";

const lattice: CutPattern = { form: "cross-cut", cuts: 6, spacingMm: 2 };
const x: CutPattern = { form: "x-cut", sizeMm: { lengthMm: 37.8, widthMm: 13 } };
const read = (scene: Pick<TapeScene, "pattern" | "loss"> & Partial<TapeScene>) => {
  const rendered = renderTape({
    ...{ seed: 3, primer: "red oxide", substrate: "bare steel", tiltDeg: 12, uneven: 0.3 },
    widthPx: scene.pattern.form === "x-cut" ? 800 : 420,
    ...scene,
  });
  const random = seededRandom(8);
  const reading = tapeReading(
    { ...rendered.before, cornersPx: asSetByFinger(rendered.before.cornersPx, random, 5) },
    { ...rendered.after, cornersPx: asSetByFinger(rendered.after.cornersPx, random, 5) },
    scene.pattern,
  );
  return { reading, truth: rendered.removedPercent };
};

describe("a tape test from two photographs of known removal", () => {
  test("cuts alone are no removal", { timeout: 30_000 }, () => {
    const { reading } = read({ pattern: lattice, loss: { percent: 0 } });
    expect(reading).toMatchObject({ removal: { form: "cross-cut", removedPercent: 0 } });
  });

  test("a fifth of a lattice, grey primer on phosphate; the squares add up to it", { timeout: 30_000 }, () => {
    const { reading, truth } = read({
      ...{ pattern: lattice, loss: { percent: 22 }, primer: "grey", substrate: "phosphate" },
    });
    if ("unreadable" in reading || reading.removal.form !== "cross-cut") throw new Error("not read");
    const { removedPercent, squarePercents, span } = reading.removal;
    expect(Math.abs(removedPercent - truth)).toBeLessThan(3.5);
    expect(squarePercents).toHaveLength(25);
    expect(squarePercents.reduce((sum, one) => sum + one, 0) / 25).toBeCloseTo(removedPercent, 0);
    expect(span.from).toBeLessThanOrEqual(removedPercent);
    expect(span.to).toBeGreaterThanOrEqual(removedPercent);
  });

  test("slivers along the cuts, no wider than their burr, count", { timeout: 30_000 }, () => {
    const { reading, truth } = read({ pattern: lattice, loss: { percent: 5.6 }, seed: 12 });
    if ("unreadable" in reading) throw new Error("not read");
    expect(truth).toBeCloseTo(5.6, 1);
    expect(Math.abs(reading.removal.removedPercent - truth)).toBeLessThan(1.2);
  });

  test("an X, jagged to 2.4 mm", { timeout: 30_000 }, () => {
    const { reading } = read({ pattern: x, loss: { x: "jagged", jagMm: 2.4 } });
    if ("unreadable" in reading || reading.removal.form !== "x-cut") throw new Error("not read");
    expect(reading.removal.jagWidthMm).toBeGreaterThan(1.7);
    expect(reading.removal.jagWidthMm).toBeLessThan(3.1);
    expect(reading.removal.flagPercents).toHaveLength(4);
  });

  test("a field in the middle of an X, whose edges follow no cut", { timeout: 30_000 }, () => {
    const loss = { x: "mostOfX", jagMm: 0, pastEndsMm: -3.8 } as const;
    const { reading, truth } = read({ pattern: x, loss, primer: "grey", substrate: "phosphate", seed: 7 });
    if ("unreadable" in reading) throw new Error("not read");
    expect(truth).toBeGreaterThan(30);
    expect(Math.abs(reading.removal.removedPercent - truth)).toBeLessThan(1);
  });

  test("a cut that is too small in the picture is refused", { timeout: 30_000 }, () =>
    expect(() => read({ pattern: lattice, loss: { percent: 0 }, widthPx: 180 })).toThrow(
      /px per mm of the cut"?; expected at least 8/,
    ),
  );
});
