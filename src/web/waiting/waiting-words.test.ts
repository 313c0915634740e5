import { expect, test } from "vitest";
import type { WaitingItem } from "./waiting-item.ts";
import { inspectionNamed, waitingWords } from "./waiting-words.ts";

const trial = "3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11";
const kept = { id: "a", writtenAt: "2026-03-01T10:00:00Z", refused: null };

test("a coupon's number may hold spaces", () =>
  expect(inspectionNamed(`${trial} B 12 back`)).toEqual({ trial, coupon: "B 12", face: "back" }));
test.each(["", "7 front", `${trial} 7`])("%j names no inspection", (name) => expect(inspectionNamed(name)).toBeNull());

test("a photograph is called by its coupon, an observation by its kind", () => {
  const photo: WaitingItem = { ...kept, kind: "photo", inspection: `${trial} 7 front`, file: new Blob([]) };
  expect(waitingWords(photo)).toBe("Photograph of coupon 7, front");
  const body = { kind: "put out", site: "shed", date: "2026-03-01", coupons: ["3", "9", "14"] } as const;
  const observation = { id: "a", by: "Ada", corrects: null, body: { ...body, coupons: [...body.coupons] } };
  expect(waitingWords({ ...kept, kind: "observation", trial, observation })).toBe("Put out, coupons 3, 9 and 14");
});

test("anything else is called as it was when it was written down", () =>
  expect(
    waitingWords({ ...kept, kind: "message", path: "/api/trials", body: {}, words: "New trial: wax or oil" }),
  ).toBe("New trial: wax or oil"));
