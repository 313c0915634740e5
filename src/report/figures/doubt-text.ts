/** How sure a percentage is and what read it, in words. */
import type { Doubt, ReadBy } from "./looks-table.ts";
import { percentText } from "./number-text.ts";

export const doubtNote = (confidencePercent: number): string =>
  `Small below a percentage: between which percentages it may lie by the reading's own doubt (${confidencePercent.toFixed(0)} %), and the D610 grades there.`;

/** "0.8–1.7" and "D610 6–5": two lines, narrow enough for a cell. */
export const doubtLines = ({ low, high, best, worst }: Doubt): [string, string] => [
  `${percentText(low)}–${percentText(high)}`,
  `D610 ${best === worst ? best : `${best}–${worst}`}`,
];

export const doubtInWords = ({ low, high, best, worst }: Doubt): string =>
  `between ${percentText(low)} and ${percentText(high)} %, D610 grade ${best === worst ? best : `${best} to ${worst}`}`;

/** "23 looks were read by: rust by learned model, version 1; 1 of them corrected by hand." */
export function readByText({ method, looks, correctedByHand }: ReadBy): string {
  const byHand = correctedByHand === 0 ? "" : `; ${correctedByHand} of them corrected by hand`;
  return `${looks === 1 ? "1 look was" : `${looks} looks were`} read by: ${method}${byHand}.`;
}

export const severalReaders =
  "Photographs read by different models are not quite comparable: a difference may be the model's and not the coupon's.";
