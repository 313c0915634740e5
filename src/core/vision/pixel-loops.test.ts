import { expect, test } from "vitest";
import { addressOf, inRoom, kept, lentBytes, lentFloats, pixelLoops, placeOf } from "./pixel-loops.ts";

test("what is lent in a room is taken back at its end, also after an error", () => {
  const address = () => inRoom(() => lentBytes(10).byteOffset);
  const first = address();
  expect(address()).toBe(first);
  expect(() =>
    inRoom(() => {
      lentBytes(1000);
      throw new Error("in the middle");
    }),
  ).toThrow("in the middle");
  expect(address()).toBe(first);
});

test("what a method hands out is its own outside, and lies where it was within another's room", () => {
  const made = () =>
    kept(() => ({ name: "plane", plane: lentFloats(3).fill(7), inner: { bytes: lentBytes(2).fill(1) } }));
  const own = made();
  inRoom(() => lentFloats(3).fill(0));
  expect([...own.plane]).toEqual([7, 7, 7]);
  expect(own.plane.buffer).toBeInstanceOf(ArrayBuffer);
  expect(own.inner.bytes.buffer).toBeInstanceOf(ArrayBuffer);
  expect(own.name).toBe("plane");
  inRoom(() => expect(made().plane.buffer).toBeInstanceOf(SharedArrayBuffer));
});

test("what was lent stays where it is while memory grows", () => {
  inRoom(() => {
    const before = lentBytes(4).fill(9);
    for (let times = 0; times < 40; times++) lentFloats(100_000);
    expect([...before]).toEqual([9, 9, 9, 9]);
    pixelLoops().toOnes(placeOf(before), 4);
    expect([...before]).toEqual([1, 1, 1, 1]);
  });
});

test("a copy is read where an array is not lent, and nothing can be written there", () => {
  const own = Float32Array.of(1, 2, 3);
  inRoom(() => {
    const lent = lentFloats(3);
    lent.set(own);
    expect(addressOf(lent)).toBe(lent.byteOffset);
    expect(new Float32Array(lent.buffer, addressOf(own), 3)).toEqual(lent);
  });
  expect(() => placeOf(own)).toThrow("only write to what was lent");
});

test("two places or 16 bytes after what was lent never overlap", () => {
  inRoom(() => {
    const [one, other] = [lentBytes(17), lentBytes(1)];
    expect(other.byteOffset - one.byteOffset).toBeGreaterThanOrEqual(17 + 16);
    expect(other.byteOffset % 16).toBe(0);
  });
});
