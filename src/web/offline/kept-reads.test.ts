import { expect, test } from "vitest";
import { isKept } from "./kept-reads.ts";

const trial = "3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11";
const photo = "a".repeat(64);

test.each([
  ["/api/today", true],
  ["/api/trials", true],
  ["/api/eye-tests", true],
  [`/api/trials/${trial}`, true],
  [`/api/photos/${photo}?width=96`, true],
  // Whole photographs would fill the device; the rest changes by the second or gives something away.
  [`/api/photos/${photo}`, false],
  ["/api/events", false],
  [`/api/jobs/${trial}`, false],
  ["/api/sharing", false],
  ["/api/devices", false],
  ["/api/todays", false],
])("%s is kept: %s", (path, is) => expect(isKept(new URL(path, "https://shop.local"))).toBe(is));
