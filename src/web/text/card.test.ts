import { expect, test } from "vitest";
import { measuringCard } from "../../core/vision/measuring-card.ts";
import { cardText } from "./card.ts";

test("the hint keeps to the room between the lower markers of the smallest card and their white", () => {
  const { widthMm, markers, markerMm } = measuringCard("small");
  const quietMm = markers[0]!.xMm;
  const roomMm = widthMm - 2 * (markerMm + 2 * quietMm);
  // Printed in letters of 2.2 mm: 74 of them took 78.5 mm, across both markers.
  for (const line of cardText.onPrint.acrossHint) expect((line.length * 78.5) / 74).toBeLessThanOrEqual(roomMm);
});
