import { timingSafeEqual } from "node:crypto";
import { expect, test, vi } from "vitest";
import { codeTries, pairingDesk } from "./pairing-desk.ts";

vi.mock("node:crypto", async (original) => {
  const crypto = await original<typeof import("node:crypto")>();
  return { ...crypto, timingSafeEqual: vi.fn(crypto.timingSafeEqual) };
});

test("each try is compared whole, in constant time, however long it is and however much of it is right", () => {
  const desk = pairingDesk(() => new Date());
  const { code } = desk.open("helper");
  const tries = ["", "A", code.slice(0, 8), "x".repeat(60)];
  expect(tries.length).toBeLessThan(codeTries);
  for (const typed of tries) expect(desk.try(typed)).toBe("wrong");
  expect(desk.try(code)).toBe("helper");
  const { calls } = vi.mocked(timingSafeEqual).mock;
  expect(calls).toHaveLength(tries.length + 1);
  for (const sides of calls) expect(sides.map((side) => side.byteLength)).toEqual([32, 32]);
});
