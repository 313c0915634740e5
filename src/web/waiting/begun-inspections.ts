/** Inspections begun on this device whose photograph is in the shop and not rated yet. */
import { keptInspection } from "../inspect/inspection-state.ts";
import { readKept } from "../keep/kept.ts";
import { inspectionNamed } from "./waiting-words.ts";

const place = "coatwright inspection ";

export function begunInspections(): { trial: string; coupon: string; face: string }[] {
  return Object.keys(localStorage)
    .filter((key) => key.startsWith(place))
    .map((key) => key.slice(place.length))
    .filter((name) => !["picture", "by eye"].includes(keptInspection(readKept(`inspection ${name}`)).step))
    .flatMap((name) => inspectionNamed(name) ?? []);
}
