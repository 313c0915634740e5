import { describe, expect, test } from "vitest";
import { itemsOfFile, waitingFile } from "./waiting-file.ts";
import type { WaitingItem } from "./waiting-item.ts";

const id = (at: number) => `3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a${String(at).padStart(2, "0")}`;
const kept = (at: number) => ({ id: id(at), writtenAt: "2026-03-01T10:00:00.000Z", refused: null });
const hash = "a".repeat(64);
const corners: [[number, number], [number, number], [number, number], [number, number]] = [
  ...(
    [
      [0, 0],
      [9, 0],
      [9, 9],
      [0, 9],
    ] as const
  ).map(([x, y]): [number, number] => [x, y]),
] as never;
const waiting: WaitingItem[] = [
  {
    ...{ ...kept(1), skewMs: 5, kind: "observation", trial: id(0) },
    observation: { id: id(1), by: "Ines", corrects: null, body: { kind: "unblinding" } },
  },
  {
    ...kept(2),
    kind: "photo",
    inspection: `${id(0)} 3 front`,
    file: new Blob(["first\nnoise"], { type: "image/jpeg" }),
  },
  {
    ...{ ...kept(3), kind: "photo", inspection: `photograph ${hash}`, named: { words: "Photograph", hash } },
    file: new Blob(["second"], { type: "image/png" }),
  },
  {
    ...{ ...kept(4), kind: "reading", trial: id(0), by: "Ines", corrects: null },
    reading: {
      of: "finish colour",
      request: {
        photo: hash,
        cornersPx: corners,
        sizeMm: { lengthMm: 100, widthMm: 60 },
        edgeBandMm: 5,
        thicknessMm: 3,
      },
      body: { kind: "finish colour", coupon: "3", when: { date: "2026-03-01" }, state: "oiled", note: "" },
    },
  },
  {
    ...{ ...kept(6), kind: "correction", coupon: "3", measurement: id(7), inspection: `${id(0)} 3 front` },
    correction: {
      id: id(6),
      by: "Ines",
      why: "clay",
      strokes: [{ paint: "not rust", widthMm: 5, pointsMm: [[3, 4]] }],
    },
    look: {
      ...{ id: id(8), trial: id(0), corrects: id(9) },
      body: { kind: "look", coupon: "3", face: "front", when: { date: "2026-03-01" }, blind: true },
    },
  },
  { ...kept(5), kind: "message", path: "/api/sites/shed/readings", body: [{ tempC: 8 }], words: "1 climate reading" },
];

const bytesOf = async (item: WaitingItem) => (item.kind === "photo" ? item.file.text() : null);

describe("what waits, as a file", () => {
  test("comes back with its ids, its order and its photographs", async () => {
    const back = await itemsOfFile(await waitingFile(waiting));
    const plain = (items: readonly WaitingItem[]) => items.map((item) => ({ ...item, file: null }));
    expect(plain(back)).toEqual(plain(waiting));
    expect(await Promise.all(back.map(bytesOf))).toEqual(await Promise.all(waiting.map(bytesOf)));
    expect(back.map((item) => (item.kind === "photo" ? item.file.type : ""))).toEqual([
      "",
      "image/jpeg",
      "image/png",
      "",
      "",
      "",
    ]);
  });

  test.each([
    ["a photograph", new Blob(["\xff\xd8 noise\n"])],
    ["a list of something else", new Blob(["[1, 2]\n"])],
    ["nothing", new Blob([])],
  ])("%s is no such file", async (_what, file) => {
    await expect(itemsOfFile(file)).rejects.toThrow("no file of things that wait");
  });

  test("cut short, one byte too long or one byte changed, nothing of it is taken in", async () => {
    const whole = await waitingFile(waiting);
    const bytes = new Uint8Array(await whole.arrayBuffer());
    const changed = bytes.map((byte, at) => (at === bytes.length - 1 ? byte ^ 1 : byte));
    for (const broken of [whole.slice(0, whole.size - 1), new Blob([whole, "x"]), new Blob([changed])])
      await expect(itemsOfFile(broken)).rejects.toThrow("not whole");
  });

  test.each(["/api/sharing", "/api/pairing/code", "/api/trials/../sharing", "https://elsewhere/api/trials"])(
    "asks %s of no shop, whoever wrote the file",
    async (path) => {
      const item: WaitingItem = { ...kept(5), kind: "message", path, body: {}, words: "any" };
      await expect(itemsOfFile(await waitingFile([item]))).rejects.toThrow("no file of things that wait");
    },
  );
});
