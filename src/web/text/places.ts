/** Words of leaving places out of a face, of drawing its outline and of marking contact points. */
import { counted } from "./parts.ts";

export const placesText = {
  sentence:
    "Mark what is not to be judged: a hole, a stamped number, a wire, a label. Mark where the coupon hung or touched: rust round it is counted by itself, too.",
  brushIsLost: "What was painted with the brush on this photograph is not carried over: paint it again afterwards.",
  tool: "Mark with",
  tools: { round: "circle", box: "box", outline: "outline", contact: "contact point" },
  hints: {
    round: "Tap the hole; drag its ring, and make it as large as the hole.",
    box: "Tap the stamp or label; drag its ring, and make it as long and wide.",
    outline: "For a coupon that is no rectangle: tap round its edge. All outside the outline is left out.",
    contact:
      "Tap where it hung or touched; the ring says how far round it rust is counted. It is still judged with the face.",
  },
  picture: "The coupon cut out straight; a tap marks a place on it",
  ring: {
    round: (at: number): string => placesText.place(at),
    box: (at: number): string => placesText.place(at),
    outline: (at: number): string => placesText.corner(at),
    contact: (at: number): string => placesText.contact(at),
  },
  contact: (at: number) => `Contact point ${at}: arrow keys move it, plus and minus size it, Delete takes it away`,
  place: (at: number) => `Place ${at}: arrow keys move it, plus and minus size it, Delete takes it away`,
  corner: (at: number) => `Corner ${at} of the outline: arrow keys move it, Delete takes it away`,
  putInMiddle: { round: "Circle in the middle", box: "Box in the middle", contact: "Contact point in the middle" },
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
  marked: (places: number, corners: number, contacts: number) =>
    `${[
      places === 0 ? "No place is left out" : `${counted(places, "place")} left out`,
      ...(corners === 0 ? [] : [`an outline of ${counted(corners, "corner")}`]),
      ...(contacts === 0 ? [] : [counted(contacts, "contact point")]),
    ].join("; ")}.`,
  faults: {
    "too few": "An outline takes three corners or more: tap the next one, or undo.",
    crossed: "Two sides of the outline cross: drag a corner so that they run round the coupon.",
  },
  apply: "Measure with this",
  working: "Measuring with what was marked",
  back: "Back to the places",
  cancel: "Leave it as it was",
} as const;
