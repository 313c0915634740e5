import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { newId, uuidOf } from "./new-id.ts";

describe("ids made on the page", () => {
  test("version and variant are marked whatever the bytes are", () => {
    expect(uuidOf(new Uint8Array(16))).toBe("00000000-0000-4000-8000-000000000000");
    expect(uuidOf(new Uint8Array(16).fill(255))).toBe("ffffffff-ffff-4fff-bfff-ffffffffffff");
  });

  test("the server's schema takes them and they differ", () => {
    const ids = Array.from({ length: 100 }, newId);
    expect(ids.every((id) => z.safeParse(z.uuid(), id).success)).toBe(true);
    expect(new Set(ids).size).toBe(100);
  });
});
