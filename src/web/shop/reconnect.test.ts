import { describe, expect, test } from "vitest";
import { reconnectDelayMs } from "./reconnect.ts";

describe("before the shop is called again", () => {
  test.each([
    // failures  chance  ms
    [1, 0, 500],
    [1, 1, 1000],
    [2, 1, 2000],
    [3, 0, 2000],
    [4, 1, 8000],
    [5, 1, 15_000],
    [5, 0, 7500],
    [500, 1, 15_000],
  ])("after %d failures, by the lot %d: %d ms", (failures, chance, ms) =>
    expect(reconnectDelayMs(failures, chance)).toBe(ms),
  );
});
