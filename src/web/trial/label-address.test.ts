import { expect, test } from "vitest";
import { trialsMeant } from "../find-coupon/coupon-address.ts";
import { labelAddress, labelBases } from "./label-address.ts";

test.each([
  ["the owner's machine, not shared", "http://127.0.0.1:4477", [], []],
  [
    "the owner's machine, shared",
    "http://localhost:4477",
    ["https://192.168.1.20:4478/"],
    ["https://192.168.1.20:4478"],
  ],
  [
    "a phone",
    "https://shed.local:4478",
    ["https://shed.local:4478/", "https://192.168.1.20:4478/"],
    ["https://shed.local:4478", "https://192.168.1.20:4478"],
  ],
])("%s", (_, origin, shared, bases) => {
  expect(labelBases(origin, shared)).toEqual(bases);
});

test("a label's address means the one trial and the coupon, also a number with a slash", () => {
  const id = "b52c4b18-8cf6-8cb3-ae37-8f8decffb8c6";
  const address = labelAddress("https://shed.local:4478", id, "7/a");
  const [, digits, coupon] = new URL(address).pathname.match(/^\/c\/([^/]+)\/([^/]+)$/)!;
  expect(decodeURIComponent(coupon!)).toBe("7/a");
  const trial = (one: string) => ({ id: one, unblinded: false }) as Parameters<typeof trialsMeant>[0][number];
  expect(trialsMeant([trial(id), trial("6cb52cb2-a258-82f3-a064-2388c0d38e50")], digits!)).toEqual([trial(id)]);
});
