/** Why a plan's numbers are as they are: what rests on them and where they come from. */
import { d610Limits } from "../../core/rating/d610-grade.ts";

const cleanest = d610Limits[0];

export const whyPlanText = {
  threshold: {
    of: "the rust threshold",
    asked: "why this limit?",
    said: [
      `Strictly above it a face counts as rusted; at or below it nothing is seen. ${cleanest.upToPercent} % is the limit of grade ${cleanest.grade} in ASTM D610, table 1: the smallest area that a published scale calls rust.`,
      "On 5000 mm² that is one spot of 0.8 mm. A photograph must show it: 20 pixels to a millimetre or more.",
      "It decides when a coupon first rusted. Change it before the first look, or not at all.",
    ],
  },
  edgeBand: {
    of: "the edge band",
    asked: "why an edge band?",
    said: [
      "A cut or ground edge rusts first, whatever the finish. Counted with the face it would hide how the finish holds on the flat.",
      "Rust within the band is measured apart and said beside the face's; first rust at an edge is not first rust of the face.",
      "5 mm is common practice, from memory; the shop may take another width, the same for all coupons of a trial.",
    ],
  },
  lookDays: {
    of: "the look days",
    said: [
      "First rust is known only to lie between two looks. Where many coupons rust in one gap, nobody can tell who was first.",
      "Offered are days 1, 2, 4, 7, 10, 14, then weekly, from week 12 on every second week: dense while a fast treatment rusts, thin where little happens.",
      "Six looks or more; before half of the control has rusted no gap longer than a third of that time; the last look after half of the best has rusted.",
    ],
  },
  blocks: {
    of: "the blocks",
    said: [
      "Places on a rack differ: wind, drip, shade. A block is a stretch in which each treatment hangs, and only coupons of one block are compared with each other.",
      "Within a block the lot decides who hangs where, so that no treatment has the good places; the test counts the arrangements that the lot could have given.",
    ],
  },
  units: {
    of: "what counts as one unit",
    said: [
      "Counted is what was treated separately. Coupons in one dip share whatever was odd about that dip: for this step they are one unit, however many they are.",
      "Only the steps in which treatments differ decide. A step that all of them share may be done in one go.",
    ],
  },
  spares: {
    of: "the spares",
    asked: "why spares?",
    said: [
      "A coupon lost before it went out leaves a hole in its block. A spare of the same treatment, coated along with it, takes its place; after that day it would be younger than the others, and no spare can.",
    ],
  },
};
