import { expect, test } from "vitest";
import { couponOfName } from "./coupon-of-name.ts";

const coupons = ["1", "2", "3", "7", "12", "24", "A4"];

test.each<[string, string | null, string]>([
  // file                        coupon  why
  ["7.jpg", "7", "the whole name"],
  ["07.JPG", "7", "a zero before it, where the number is all"],
  ["coupon 12.jpeg", "12", "a word and the number"],
  ["shed_a4-front.png", "A4", "letters, however large"],
  ["2026-03-01 coupon 3.jpg", "3", "a date is no coupon"],
  ["20260301_101112-7.jpg", "7", "nor is a camera's moment"],
  ["IMG_0007.jpg", null, "a camera counted that"],
  ["IMG_7.jpg", null, "that too"],
  ["DSC00012.JPG", null, "and that"],
  ["PXL_20260301_101112123.jpg", null, "and that"],
  ["12 of 24.jpg", null, "two coupons: which?"],
  ["12-12.jpg", "12", "twice the same"],
  ["coupon 5.jpg", null, "not of this trial"],
  ["front.jpg", null, "no number"],
  [".jpg", null, "no name"],
])("%s: %s (%s)", (file, coupon) => expect(couponOfName(file, coupons)).toBe(coupon));
