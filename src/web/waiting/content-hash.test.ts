import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../core/numeric/random.ts";
import { contentHashOf, digestInSlices } from "./content-hash.ts";

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString("hex");
const random = seededRandom(3);
const noise = (size: number) => Uint8Array.from({ length: size }, () => random.below(256));

describe("the content hash of a photograph", () => {
  test.each([
    // FIPS 180-4's own examples, as NIST publishes them; then this machine's node:crypto.
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
  ])("%j in slices", async (text, expected) => expect(hex(await digestInSlices(new Blob([text])))).toBe(expected));

  test.each([1, 256 * 1024, 256 * 1024 + 1, 1_000_003])(
    "%i bytes, with the browser's own way and without",
    async (size) => {
      const bytes = noise(size);
      const expected = createHash("sha256").update(bytes).digest("hex");
      expect(hex(await digestInSlices(new Blob([bytes])))).toBe(expected);
      expect(await contentHashOf(new Blob([bytes]))).toBe(expected);
    },
  );
});
