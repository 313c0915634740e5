/** Words of the pages that show faces over time and side by side. */
import { counted } from "./parts.ts";

export const facesText = {
  title: (coupon: string) => `Coupon ${coupon} over time`,
  sentence: (photographs: number) =>
    photographs === 0
      ? "No photograph of this face has been measured."
      : `${counted(photographs, "photograph")}, the oldest first.`,
  pictureAlt: (coupon: string, date: string) => `Coupon ${coupon} on ${date}, rust outlined`,
  percent: (percent: string) => `${percent} %`,
  laidTitle: "Two dates laid over each other",
  oneOnly: "With a second photograph two dates can be laid over each other.",
  left: "Left of the line",
  right: "Right of the line",
  slide: "Where the line stands",
  slid: (percent: number, left: string, right: string) => `${percent} % ${left}, the rest ${right}`,
  byCard: "Both lie on each other by their measuring cards, to a few tenths of a millimetre.",
  byHand: "Corners of one were set by hand: the two may lie off each other by a millimetre or more.",
  turned: "Their numbers read different ways round, so they cannot be laid over each other.",
  oldAlt: (date: string) => `The face on ${date}`,
  withDrawing: "With the drawing",
  withoutDrawing: "Without the drawing",
  toAll: "All faces side by side",
  toLooks: "Back to the looks",

  sideTitle: (date: string) => `Every finish on ${date}`,
  sideSentence: "Each treatment by itself, its coupons by number. Percentages are of the face without its edge band.",
  stillBlind: "Faces stand side by side by treatment once the trial is closed.",
  stillBlindMore:
    "Until then nobody who looks at photographs learns which coupon had which treatment: it would colour the eye that judges them.",
  nothing: "No dated photograph has been measured.",
  date: "Date",
  noPhotograph: "no photograph",
} as const;
