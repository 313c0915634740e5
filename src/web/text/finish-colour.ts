/** Words of the finish colour. */
import type { ColourState } from "../../core/trial/seen-as.ts";
import type { FinishColour } from "../../core/trial/trial-record.ts";
import { finishText } from "../../report/finish-text.ts";
import { onWhen } from "./parts.ts";

export const finishColourText = {
  open: "Read a finish colour",
  title: "Finish colours",
  sentence:
    "How dark the finish is, how even, and where it differs. Lay the coupon on the measuring card, in soft light from above and without flash.",
  state: "The coupon is",
  states: { "dry and wiped": "dry and wiped", oiled: "oiled", wet: "wet" } satisfies Record<ColourState, string>,
  stateHint: "Oil and water make steel darker: only readings in the same state are compared.",
  date: "Date",
  take: "Photograph it on the card",
  leftOut: "What was left out of the last rust reading here (a hole, a stamp, a label) is left out of the colour, too.",
  another: "Another photograph",
  reading: "Reading the colour",
  later: "The shop is out of reach. Keep this colour: the photograph will be read when the shop is reached.",
  corners: "Rings 1 to 4 onto the coupon's corners, clockwise from the top left as its number reads.",
  read: "Read the colour",
  needsReading: "Photograph the coupon on the card first.",
  keep: "Keep this colour",
  lamp: "A lighter patch moves the mean here: it may be a lamp mirrored in the face. Turn the coupon or shade the lamp and photograph it again; a patch that stays on the steel is the finish.",
  mapAlt: "The face, patches that differ outlined",
  mapLabel: "Where it differs",
  blotch: (place: string, { deltaE, areaMm2, lighter }: { deltaE: number; areaMm2: number; lighter: boolean }) =>
    `${place[0]!.toUpperCase()}${place.slice(1)}: ${(areaMm2 / 100).toFixed(1)} cm² ${lighter ? "lighter" : "darker"} than the rest, by ΔE00 ${deltaE.toFixed(1)} (about 1 is just visible side by side).`,
  trust:
    "L* runs from 0 (black) to 100 (white), as this camera shows it beside the card's paper. Two photographs are set to one scale by the card's grey patches; rust on the face counts as its colour.",
  row: ({ coupon, state, reading, when }: FinishColour, size: { lengthMm: number; widthMm: number }) =>
    `Coupon ${coupon}: ${finishText(reading, size)}; ${state}, ${onWhen(when)}`,
} as const;
