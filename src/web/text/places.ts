/** Words of leaving places out of a face and of drawing its outline. */
import { counted } from "./parts.ts";

export const placesText = {
  sentence: "Mark what is not to be judged: a hole, a stamped number, a wire, a label.",
  brushIsLost: "What was painted with the brush on this photograph is not carried over: paint it again afterwards.",
  tool: "Mark with",
  tools: { round: "circle", box: "box", outline: "outline" },
  hints: {
    round: "Tap the hole; drag its ring, and make it as large as the hole.",
    box: "Tap the stamp or label; drag its ring, and make it as long and wide.",
    outline: "For a coupon that is no rectangle: tap round its edge. All outside the outline is left out.",
  },
  picture: "The coupon cut out straight; a tap marks a place on it",
  place: (at: number) => `Place ${at}: arrow keys move it, plus and minus size it, Delete takes it away`,
  corner: (at: number) => `Corner ${at} of the outline: arrow keys move it, Delete takes it away`,
  putInMiddle: { round: "Circle in the middle", box: "Box in the middle" },
  startRectangle: "Begin with the rectangle",
  asLast: "As on the last coupon",
  undo: "Undo",
  takeAway: "Take it away",
  zoom: "Zoom",
  across: "Across",
  long: "Long",
  wide: "Wide",
  more: (name: string) => `${name}: larger`,
  less: (name: string) => `${name}: smaller`,
  marked: (places: number, corners: number) =>
    `${places === 0 ? "No place is left out" : `${counted(places, "place")} left out`}${corners === 0 ? "." : `; an outline of ${counted(corners, "corner")}.`}`,
  faults: {
    "too few": "An outline takes three corners or more: tap the next one, or undo.",
    crossed: "Two sides of the outline cross: drag a corner so that they run round the coupon.",
  },
  apply: "Measure without this",
  working: "Measuring without what was left out",
  back: "Back to the places",
  cancel: "Leave it as it was",
} as const;
