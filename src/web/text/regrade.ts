/** Words of the screen on which a trial's own photographs are graded again, blind. */
import { fewestForKappa } from "../../core/rating/eye-agreement.ts";

export const regradeText = {
  title: "Grade the photographs by eye",
  sentence:
    "The trial's own photographs, shuffled, without measurement or treatment (a number stamped into the steel may show). It shows how far your eye agrees with the measured areas, with itself and with others; the measured areas go on counting.",
  none: "No look of this trial has a photograph yet.",
  start: (pass: number, of: number) => `Start pass ${pass}: ${of} ${of === 1 ? "photograph" : "photographs"}`,
  goOn: (left: number, of: number) => `Go on: ${left} of ${of} left`,
  photo: (number: number, of: number) => `Photograph ${number} of ${of}`,
  alt: "A coupon's face",
  name: "Write your name first: each grading is kept with it.",
  agreements: "Agreement",
  noAgreements: "After two photographs it stands here.",
  against: (by: string, against: string) => `${by} against ${against}`,
  words: { things: "photographs", area: "that area" },
  verdict:
    "Where ten blind gradings or more agree poorly with the measured areas (quadratic kappa below 0.4), no comparison of rust is more than suggested.",
  noKappa: (missing: number) =>
    `Quadratic kappa stands here from ${fewestForKappa} photographs on: ${missing} more to grade.`,
  stop: "Stop; what is graded is kept",
  back: "Back to the trial",
};
