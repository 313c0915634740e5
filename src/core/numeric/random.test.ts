import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom, xoshiro128 } from "./random.ts";

describe("seeded randomness", () => {
  test("is the published generator: outputs from the state 1, 2, 3, 4", () => {
    const state = Uint32Array.of(1, 2, 3, 4);
    const outputs = Array.from({ length: 10 }, () => xoshiro128(state));
    // test vector of the authors' C code, as other implementations quote it (memory)
    expect(outputs).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test("the same seed gives the same sequence, another seed another", () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed);
      return Array.from({ length: 8 }, random.next);
    };
    expect(draw(42)).toEqual(draw(42));
    expect(draw(42)).not.toEqual(draw(43));
    expect(draw(1)).not.toEqual(draw(1 + 2 ** 32));
  });

  test("words are the generator's own words, one after the other", () => {
    const words = new Uint32Array(7);
    const random = seededRandom(5);
    random.words(words);
    const state = seededRandom(5);
    const pairs = Array.from(
      { length: 3 },
      (_, at) => ((words[2 * at]! >>> 5) * 2 ** 26 + (words[2 * at + 1]! >>> 6)) / 2 ** 53,
    );
    expect(Array.from({ length: 3 }, state.next)).toEqual(pairs);
    // The seventh was drawn too: the next fraction starts with the eighth.
    const eighth = new Uint32Array(1);
    state.words(eighth);
    expect(eighth[0]).toBe(words[6]);
    expect(random.next()).toBe(state.next());
  });

  test("each place is as likely: 60 000 throws of a die (seed 7)", () => {
    const random = seededRandom(7);
    const counts = [0, 0, 0, 0, 0, 0];
    for (let throws = 0; throws < 60_000; throws++) counts[random.below(6)]!++;
    // chi-square with 5 degrees of freedom passes 20.5 once in a thousand seeds
    expect(counts.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0)).toBeLessThan(20.5);
  });

  test("next lies in [0, 1) with the right mean (seed 3)", () => {
    const random = seededRandom(3);
    const draws = Array.from({ length: 20_000 }, random.next);
    expect(draws.every((one) => one >= 0 && one < 1)).toBe(true);
    expect(draws.reduce((sum, one) => sum + one, 0) / draws.length).toBeCloseTo(0.5, 2);
  });

  test("shuffling loses and invents nothing, and leaves the original alone", () => {
    fc.assert(
      fc.property(fc.array(fc.integer()), fc.nat(), (items, seed) => {
        const before = [...items];
        const shuffled = seededRandom(seed).shuffle(items);
        expect(items).toEqual(before);
        expect([...shuffled].sort((a, b) => a - b)).toEqual([...items].sort((a, b) => a - b));
      }),
    );
  });

  test("all six orders of three coupons come up alike (seed 11)", () => {
    const random = seededRandom(11);
    const orders = new Map<string, number>();
    for (let n = 0; n < 6000; n++) {
      const order = random.shuffle([1, 2, 3]).join("");
      orders.set(order, (orders.get(order) ?? 0) + 1);
    }
    expect(orders.size).toBe(6);
    expect(Math.min(...orders.values())).toBeGreaterThan(880);
  });

  test.each([-1, 1.5, Number.NaN])("refuses the seed %d by name", (seed) => {
    expect(() => seededRandom(seed)).toThrow(/^seed is .* expected a whole number/);
  });
});
