/** What stands in the field after one more key, and which reading it is. */
import type { ReadingWay } from "../../core/rating/eye-agreement.ts";
import { eyeText } from "../text/eye.ts";

/** Digits after the point that an eye could mean. */
const mostLetters = 6;

export function typedAfter(typed: string, key: string): string {
  if (key === eyeText.back) return typed.slice(0, -1);
  if (key === eyeText.point) return typed.includes(".") ? typed : `${typed === "" ? "0" : typed}.`;
  if (typed.length >= mostLetters) return typed;
  return typed === "0" ? key : typed + key;
}

/** Null: no percent from 0 to 100, or nothing chosen. */
export function readingOf(way: ReadingWay, typed: string): number | null {
  if (typed === "") return null;
  const value = Number(typed);
  return value <= (way === "percent" ? 100 : 10) ? value : null;
}
