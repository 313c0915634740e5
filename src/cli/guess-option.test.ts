import { afterEach, describe, expect, test, vi } from "vitest";
import { runCommand } from "../../tests/run-command.ts";
import type { DeclaredQuestion } from "../core/trial/declared-question.ts";
import { programVersion } from "../server/program-version.ts";
import { guessFor, guessName, guessOption } from "./guess-option.ts";

const time: DeclaredQuestion = { response: "time to first rust", family: "control", margin: null, atDay: null };
const area: DeclaredQuestion = { response: "rusted area", family: "control", margin: null, atDay: null };
const said = (...typed: string[]) =>
  typed.reduce<ReturnType<typeof guessOption>>((all, one) => guessOption(one, all), []);

describe("what is expected of each question", () => {
  test.each([
    ["a bare number is for the first", ["25"], 25, null],
    ["and by name for another", ["25", "rusted area=5"], 25, 5],
    ["names whatever their case", ["Rusted Area = 5"], null, 5],
    ["nothing said", [], null, null],
  ])("%s", (_, typed, first, second) => {
    const guess = guessFor(said(...typed), [time, area]);
    expect([guess(time), guess(area)]).toEqual([first, second]);
  });
  test("a response that is not asked is refused by name", () =>
    expect(() => guessFor(said("gloss=3"), [time])).toThrow('no question about "gloss"'));
  const trend: DeclaredQuestion = { ...time, family: "pairs", order: ["none", "short", "long"] };
  test("a bare number is not for a later question about the same response", () => {
    const guess = guessFor(said("25"), [time, trend]);
    expect([guess(time), guess(trend)]).toEqual([25, null]);
  });
  test("which of them is asked by place, not guessed", () => {
    expect(() => guessFor(said("time to first rust=25"), [time, trend])).toThrow(
      '2 questions are about "time to first rust"; say which: "question 1=NUMBER" (time to first rust, against the control), "question 2=NUMBER" (time to first rust, in the order none → short → long).',
    );
    const guess = guessFor(said("question 2=10"), [time, trend]);
    expect([guess(time), guess(trend)]).toEqual([null, 10]);
  });
  test("and named so where it is missing", () => {
    expect(guessName(trend, [time, trend])).toBe("question 2");
    expect(guessName(area, [time, area])).toBe("rusted area");
  });
});

describe("--version", () => {
  afterEach(() => vi.restoreAllMocks());
  test("prints the version of the package", async () => {
    const write = vi.spyOn(process.stdout, "write").mockReturnValue(true);
    expect((await runCommand("--version")).code).toBe(0);
    expect(write.mock.calls.join("")).toBe(`${programVersion()}\n`);
    expect(programVersion()).toMatch(/^\d+\.\d+\.\d+/);
  });
});
