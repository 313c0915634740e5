import { describe, expect, test } from "vitest";
import { type ChanceLine, draggedTrials, nextChancePart } from "./chance-curve.ts";
import { chanceSentence, looksCostSentence } from "./chance-words.ts";
import type { SimulatedChances } from "./simulation-tally.ts";
import { smallestFactor } from "./smallest-size.ts";

describe("what is simulated next", () => {
  const curve = { handle: 8, lines: ["one", "all"], points: [4, 8], trials: draggedTrials, daily: true } as const;
  test("the handle first, both lines in turn, then what daily looks would show, then the rest of the curve", () => {
    const claimed = new Map<string, number>();
    const order: string[] = [];
    for (;;) {
      const part = nextChancePart(curve, (each, line) => claimed.get(`${each} ${line}`) ?? 0);
      if (part === null) break;
      const key = `${part.each} ${part.line}`;
      expect(part.from).toBe(claimed.get(key) ?? 0);
      claimed.set(key, part.to);
      if (order.at(-1) !== key) order.push(key);
    }
    expect(order.slice(0, 4)).toEqual(["8 one", "8 all", "8 one", "8 all"]);
    expect(order.indexOf("8 daily")).toBe(32);
    expect(order.slice(33, 37)).toEqual(["4 one", "4 all", "4 one", "4 all"]);
    expect([...claimed.values()]).toEqual(Array(5).fill(draggedTrials));
  });
  test("for paper more trials of each point, and no daily looks", () => {
    const done = (each: number) => (each === 8 ? 2000 : 1990);
    expect(nextChancePart({ ...curve, trials: 2000, daily: false }, done)).toEqual({
      each: 4,
      line: "one",
      from: 1990,
      to: 2000,
    });
    expect(nextChancePart({ ...curve, trials: 2000, daily: false }, () => 2000)).toBeNull();
  });
  test("a point that is done is left alone", () => {
    const done = (_each: number, line: ChanceLine) => (line === "all" ? 25 : draggedTrials);
    expect(nextChancePart(curve, done)).toEqual({ each: 8, line: "all", from: 25, to: 50 });
  });
});

describe("the sentence beside the curve", () => {
  const chances = (each: number, all: number): SimulatedChances => ({
    trials: 400,
    each: { share: each, error: 0.02 },
    all: { share: all, error: 0.024 },
    falselyShown: { share: 0, error: 0 },
    pairs: [],
  });
  const days = { response: "time to first rust", atDay: null } as const;
  const rust = { response: days, better: "all", size: 3, each: 8, finishes: 5 } as const;
  test.each([
    [
      rust,
      chances(0.79, 0.61),
      "If every finish held rust off 3 times as long, 8 each would show it for each in eight trials of 10 (79\u00a0%, give or take 4). All of them at once: in six trials of 10 (61\u00a0%, give or take 5).",
    ],
    [
      { ...rust, better: "one" },
      chances(0.91, 0.91),
      "If one finish held rust off 3 times as long, 8 each would show it in nine trials of 10 (91\u00a0%, give or take 4).",
    ],
    [
      { ...rust, finishes: 1 },
      chances(0, 0),
      "If the finish held rust off 3 times as long, 8 each would show it in no trial (0\u00a0%, give or take 4).",
    ],
    [
      { ...rust, response: { response: "tape class", atDay: null }, size: 1, finishes: 1 },
      chances(0.03, 0.03),
      "If the finish came out 1 class better, 8 each would show it hardly ever (3\u00a0%, give or take 4).",
    ],
  ] as const)("%#", (asked, found, sentence) => expect(chanceSentence(asked, found)).toBe(sentence));

  test("looks are called dear only beyond five points", () => {
    expect(looksCostSentence(chances(0.78, 0), chances(0.82, 0))).toBeNull();
    expect(looksCostSentence(chances(0.32, 0), chances(0.81, 0))).toMatch(/81\u00a0% instead of 32\u00a0%/);
  });
});

describe("the smallest factor", () => {
  test("to 5 %, from above", async () => {
    const found = await smallestFactor(async (factor) => (factor >= 2.6 ? 0.85 : 0.6), 0.8);
    expect(found).toBeGreaterThanOrEqual(2.6);
    expect(found).toBeLessThan(2.6 * 1.05);
  });
  test("none, when not even twenty times would be shown", async () =>
    expect(await smallestFactor(async () => 0.4, 0.8)).toBeNull());
});
