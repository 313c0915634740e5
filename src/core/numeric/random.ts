/**
 * Seeded randomness: the same seed gives the same plan, simulation and picture everywhere.
 *
 * Units    none
 * Source   xoshiro128** of Blackman and Vigna 2018, seeded by SplitMix32
 * Status   memory
 */
import { InputError, requireWhole } from "../input-error.ts";

export type SeededRandom = {
  /** A fraction from 0 up to, not including, 1, with 53 random bits. */
  next: () => number;
  /** A whole number from 0 to n - 1, each as likely. */
  below: (n: number) => number;
  /** Fills the array with words of 32 random bits: for loops in which a call for each would cost more than the drawing. */
  words: (into: Uint32Array) => void;
  /** A new array with the items in random order. */
  shuffle: <T>(items: readonly T[]) => T[];
};

/**
 * xoshiro128** (Blackman and Vigna 2018, public domain) with its state filled by SplitMix32.
 * The seed is a whole number of 0 or more.
 */
export function seededRandom(seed: number): SeededRandom {
  requireWhole("seed", seed);
  const fill = splitMix32(seed >>> 0, Math.floor(seed / 2 ** 32) >>> 0);
  const state = Uint32Array.of(fill(), fill(), fill(), fill());
  const bits = () => xoshiro128(state);
  const next = () => ((bits() >>> 5) * 2 ** 26 + (bits() >>> 6)) / 2 ** 53;
  const below = (n: number) => {
    requireWhole("n", n, 1);
    if (n > 2 ** 32) throw new InputError("n", n, "at most 2^32");
    // Draws beyond the last full multiple of n are thrown away, or small numbers would come up too often.
    const limit = 2 ** 32 - (2 ** 32 % n);
    let drawn = bits();
    while (drawn >= limit) drawn = bits();
    return drawn % n;
  };
  const shuffle = <T>(items: readonly T[]) => {
    const shuffled = [...items];
    for (let at = shuffled.length - 1; at > 0; at--) {
      const other = below(at + 1);
      [shuffled[at], shuffled[other]] = [shuffled[other]!, shuffled[at]!];
    }
    return shuffled;
  };
  const words = (into: Uint32Array) => fillWithWords(state, into);
  return { next, below, words, shuffle };
}

/** The next 32 bits; moves the four words of state on. */
export function xoshiro128(state: Uint32Array): number {
  // Read one by one: taking the array apart costs more than all the rest.
  const s0 = state[0]!;
  const s1 = state[1]!;
  const s2 = state[2]!;
  const s3 = state[3]!;
  const result = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
  const third = s2 ^ s0;
  const fourth = s3 ^ s1;
  state[1] = s1 ^ third;
  state[0] = s0 ^ fourth;
  state[2] = third ^ (s1 << 9);
  state[3] = rotated(fourth, 11);
  return result;
}

/** The same generator with its state in local variables, which is what makes it quick. */
function fillWithWords(state: Uint32Array, into: Uint32Array): void {
  let s0 = state[0]! | 0;
  let s1 = state[1]! | 0;
  let s2 = state[2]! | 0;
  let s3 = state[3]! | 0;
  for (let at = 0; at < into.length; at++) {
    into[at] = Math.imul(rotated(Math.imul(s1, 5), 7), 9);
    const third = s2 ^ s0;
    const fourth = s3 ^ s1;
    s2 = third ^ (s1 << 9);
    s1 ^= third;
    s0 ^= fourth;
    s3 = rotated(fourth, 11);
  }
  state.set([s0, s1, s2, s3]);
}

function rotated(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}

/** Two words of seed, one after the other, so that seeds above 2^32 differ too. */
function splitMix32(low: number, high: number): () => number {
  let counter = low;
  return () => {
    counter = (counter + 0x9e3779b9) | 0;
    let word = counter ^ Math.imul(high, 0x85ebca6b);
    word = Math.imul(word ^ (word >>> 16), 0x21f0aaad);
    word = Math.imul(word ^ (word >>> 15), 0x735a2d97);
    return (word ^ (word >>> 15)) >>> 0;
  };
}
