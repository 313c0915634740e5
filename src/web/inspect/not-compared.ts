/** Why no number stands beside a measurement for what rusted since the face's first photograph. */
import type { Measurement } from "../../api/photo.ts";
import { inspectText } from "../text/inspect.ts";
import { dateText } from "../text/parts.ts";
import { type FirstPhotograph, isSameSize } from "./earlier-photographs.ts";

/** `first`: the face's first photograph by the look's date as it is now. Null where nothing needs to be said. */
export function notCompared(
  first: FirstPhotograph | null,
  { card, byHand, request }: Pick<Measurement, "card" | "byHand" | "request">,
): string | null {
  // A hand's correction is of the percentage; what it would mean for the comparison nobody can tell.
  if (byHand !== null || request.first) return null;
  if (first === null) return card ? inspectText.isFirst : null;
  const date = dateText(first.date);
  if (!card) return inspectText.sinceByHand(date);
  return isSameSize(first.sizeMm, request.sizeMm) ? inspectText.sinceNotAsked(date) : inspectText.sinceOtherWay(date);
}
