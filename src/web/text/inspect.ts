/** Words of the inspecting screens. The treatment is named nowhere here. */
import { counted } from "./parts.ts";

export const inspectText = {
  coupon: "Coupon",
  title: (coupon: string) => `Coupon ${coupon}`,
  progress: (done: number, all: number) => `${done} of ${all} done`,
  progressLabel: "Done in this look",
  later: "This coupon later",
  stop: "Back to the trial",
  allDone: "Every coupon of this look is done.",
  noneOut: "No coupon is outdoors on this date.",
  noneOutMore: "Put coupons out in the trial first, or choose another date.",
  again: "Look at one again",
  notOfTrial: (coupon: string) => `This trial has no coupon ${coupon}.`,
  nextOne: "To the next coupon",
  face: "Face",
  faces: { front: "front", back: "back" },
  date: "Date of the look",
  you: "Who looks",
  youMissing: "Write who looks; it is asked once on this device.",

  take: "Take a photograph",
  choose: "Choose a picture",
  testEye: "How far is your eye off? Test it on plates of known rust.",
  byEye: "Judge by eye, without a photograph",
  hints:
    "On its measuring card, whole card in the picture, square from above, even light without glare, number upright.",
  printCard: "Print a card",
  heic: "This picture is stored as HEIC, which cannot be read here. Nothing was sent.",
  heicHow: [
    "Take the photograph here, with this page's own button: most phones then hand it over as JPEG by themselves.",
    "Or set the phone's camera, under formats, to “most compatible” (JPEG), and take it again.",
    "Or open the picture on the phone, share or export it as JPEG, and choose that copy.",
  ],
  sending: "Sending the photograph",
  stopSending: "Stop",
  waiting:
    "A photograph of this face is kept on this device. It is sent by itself when the shop answers; rate it then, and go on meanwhile.",
  sendNow: "Send it now",
  throwAway: "Throw it away",

  surface: "Is the coupon dry and wiped, as the plan says?",
  surfaces: {
    "dry and wiped": "Dry and wiped",
    wet: "Wet: keep the photograph, rate nothing",
    oily: "Freshly oiled: keep it, rate nothing",
    dusty: "Dusty: keep it, rate nothing",
  },
  previewAlt: "The photograph as it arrived",
  findingCard: "Looking for the card and measuring",
  notRated: "The photograph is kept. It is not rated.",
  gate: "How good the photograph is",
  gateCheck: "Check",
  gateMeasured: "Measured",
  gateLimit: "Limit",
  gateResult: "Result",
  gatePasses: "good",
  gateFails: "not good enough",
  gateBounds: { least: "at least", most: "at most" },
  gateNames: {
    resolution: "Resolution",
    tilt: "Tilt",
    focus: "Focus",
    "focus of the coupon's edge": "Focus, by the coupon's edge",
    movement: "Movement",
    glare: "Glare",
    darkness: "Brightness of white",
    overexposure: "Burnt-out white",
    "uneven light": "Uneven light",
    "hard shadow": "Hard shadow",
    "colour cast": "Colour of the light",
    "flat card": "Card not flat",
    "card in sight": "Card in sight",
  },
  byCard: (card: string, size: string) => `Found by the ${card} card; the coupon measures ${size}.`,
  spots: (count: number) => counted(count, "rust spot"),
  spotsMap: "Where the rust spots lie on the coupon",
  spotsDrawn: (drawn: number, all: number) => `Drawn are the ${drawn} largest of ${all}.`,
  spotClass: (fromMm: number, belowMm: number | null) =>
    belowMm === null
      ? `${fromMm} mm across and more`
      : fromMm === 0
        ? `below ${belowMm} mm across`
        : `${fromMm} to ${belowMm} mm across`,
  degree4628: "ISO 4628-3",

  corners: "Drag the four rings onto the coupon's corners, 1 at the top left as the number reads.",
  cornerLabel: (at: number) =>
    `Corner ${at + 1}, ${["top left", "top right", "bottom right", "bottom left"][at]} as the number reads; arrow keys move it`,
  white: "Something white or grey in the picture",
  whiteHint:
    "May be left out. Without a card, lamplight may pass for rust: paper or a label beside the coupon tells its colour.",
  whiteTap: "Tap paper or a label in the picture, not wood or steel.",
  whiteNone: "There is none",
  whiteAway: "Take the white place away",
  whiteMark: "white",
  whiteLabel: "White or grey place; arrow keys move it",
  lightByCard: "The light was balanced by the card in the picture.",
  lightByWhite: (chroma: string) =>
    `The light was balanced by the white or grey place you pointed at; as taken it was ${chroma} C*ab off grey.`,
  cornersAgain: "Set the corners again",
  turn: "Number reads the other way: turn",
  reads: "From 1 to 2 is",
  readsAlong: (mm: string) => `the length, ${mm}`,
  readsAcross: (mm: string) => `the width, ${mm}`,
  swapped: "The corners look as if the two sides were exchanged. Is 1 to 2 really that side?",
  faults: {
    crossed: "Two sides cross or a corner is dented in: set the corners round the coupon in order.",
    mirrored: "The corners run the wrong way round: from 1 the next goes clockwise.",
    "too small": "The coupon is too small in this picture to measure. Go nearer.",
  },
  measure: "Measure",
  otherPicture: "Another picture",
  edgeBand: (mm: string) => `Band along the edges, counted apart: ${mm}.`,

  measuring: "Measuring",
  measuringFailed: (why: string) => `This could not be measured. ${why}`,
  measuringStopped: "The measuring was stopped.",
  cancel: "Cancel",
  backToCorners: "Back to the corners",
  measureAgain: "Measure again",

  ofFace: "of the face is rusted",
  edge: (percent: string) => `Edge band: ${percent} % rusted`,
  noEdge: "No edge band was set apart.",
  within: (low: string, high: string, confidencePercent: number) =>
    `Between ${low} and ${high} %, by the model's own doubt (${confidencePercent.toFixed(0)} % confidence).`,
  gradeOne: (grade: number) => `The D610 grade is ${grade} all the same.`,
  gradeSpan: (best: number, worst: number) => `The D610 grade may lie from ${best} to ${worst}.`,
  since: (date: string | null) => (date ? `Since the first photograph, ${date}` : "Since the first photograph"),
  sinceCame: (percent: string) => `${percent} % of the face rusted since then.`,
  sinceNone: "No rust came to the face since then.",
  sinceEdge: (percent: string) => `Edge band: ${percent} % since then.`,
  sinceLimits:
    "It leaves out stain, primer and heat tint that were there before; of a face that was clean at first it says what the percentage says. Where something was there it is coarser than the percentage, because two photographs never lie on each other to the pixel, and it stands beside the percentage, never in its place.",
  sinceAlt: "The coupon cut out straight, only what rusted since the first photograph outlined",
  sinceByHand: (date: string) =>
    `Not compared with the first photograph (${date}): corners set by hand lie on each other too roughly. Show the whole card.`,
  sinceOtherWay: (date: string) =>
    `Not compared with the first photograph (${date}): there the number reads the other way.`,
  sinceNotAsked: (date: string) =>
    `Not compared with the first photograph (${date}): when this one was measured, its look had another date, or that one was not there yet. Measured again, it is compared.`,
  sinceNoneOlder:
    "By the dates that the looks have now, none of this face's photographs on the card is older than this one: it was compared with one that is not.",
  isFirst: "This is the first photograph of this face on the card; later ones are compared with it.",
  drawing: (method: string) =>
    `Read: ${method}. Trust the drawing more than the last digit, and fix what it got wrong.`,
  byHand: (by: string, why: string) => `Corrected by hand: ${by}, “${why}”.`,
  gradeD610: "D610 area scale",
  rating10289: "ISO 10289 rating",
  unrounded: "ISO 10289, unrounded",
  overlayAlt: (coupon: string) => `Coupon ${coupon} cut out straight, rust outlined`,
  plainAlt: (coupon: string) => `Coupon ${coupon} cut out straight`,
  showPlain: "Without the drawing",
  showFound: "With the drawing",
  right: "Looks right",
  rightLast: "Looks right, finish",
  fix: "Fix it",
  leaveOut: "Leave places out",
  leftOut: (places: number, hasOutline: boolean) =>
    `Left out: ${[...(places > 0 ? [counted(places, "place")] : []), ...(hasOutline ? ["all outside the outline"] : [])].join(", ")}.`,
  contact: (at: number, acrossMm: string, percent: string | null) =>
    percent === null
      ? `Contact point ${at}: all round it is left out.`
      : `Contact point ${at}: ${percent} % rusted within ${acrossMm} mm across.`,
  leftOutNext: "The next photograph of this face has the same places and contact points; they can be changed there.",
  recording: "Writing it down…",
  alreadyLooked: "This face was already looked at on this date. This look is written down beside it.",

  percent: "Rusted part of the face, in %",
  percentHint: "Without the edge band. 1 % is a square of a tenth of the length by a tenth of the width.",
  percentWrong: "Write a number from 0 to 100, for instance 0.5",
  edgePercent: "Rusted part of the edge band, in % (may stay empty)",
  knew: "I could tell which treatment it has",
  record: "Write it down",
  withPhoto: "With a photograph after all",
} as const;

export const brushText = {
  sentence: "Paint what it got wrong. Then say why.",
  tools: { rust: "Rust", "not rust": "Not rust", "left out": "Leave out" },
  toolHints: {
    rust: "counts as rust",
    "not rust": "counts as clean",
    "left out": "wire, stamp, label: neither rust nor face",
  },
  tool: "The brush paints",
  move: "Move",
  width: "Brush",
  widthMm: (mm: number) => `${mm} mm`,
  zoom: "Zoom",
  undo: "Undo",
  nothing: "Nothing painted yet.",
  painted: (strokes: number) => counted(strokes, "stroke"),
  why: "Why",
  whyHint: "For instance: the label's red print was taken for rust.",
  who: "Who corrects",
  apply: "Measure with this",
  working: "Measuring with your correction",
  cancel: "Leave it as it was",
  window: "The coupon, as large as the zoom says",
  keys: "By keyboard: arrows move a ring (with Shift faster), Space paints, + and − change the brush.",
  ringAt: ([x, y]: readonly [number, number], widthMm: number) =>
    `Ring ${x} mm from the left, ${y} mm from the top; brush ${widthMm} mm.`,
  canvas: "The coupon cut out straight; paint with a finger or the mouse",
} as const;

export const looksGridText = {
  label: "Looks: coupons down, dates across",
  history: "What was written down",
  recorded: (by: string, at: string) => `Written down by ${by}, ${at}.`,
  corrected: (by: string, at: string, why: string) => `Corrected by ${by}, ${at}: “${why}”.`,
  withdrawn: "Withdrawn.",
  treatmentKnown: "treatment known to the inspector",
  blindLook: "treatment not seen",
  fixArea: "Fix the area on the picture",
  fixNumber: "Correct the number",
  overTime: "This coupon over time",
  teach: "Teach the reading by strokes",
  newPercent: "Rusted part of the face, in %",
  newClass: (scale: string) => `Class on ${scale}`,
  save: "Write the correction down",
} as const;

export const tapeText = {
  sentence: "Cut, tape, pull, and compare what came off with the drawings.",
  cut: "Cut",
  cuts: { A: "X-cut (A), for thick coatings", B: "cross-cut (B), for thin coatings" },
  tapeClass: "What came off",
  noteHint: "What else you saw.",
  record: "Write it down",
  noClass: "Choose the drawing that comes nearest.",
} as const;

/** Our own short wording of each class; the limits are those of ASTM D3359. */
export const tapeMeaning = {
  "5A": "Nothing came off.",
  "4A": "Specks along the cuts or where they cross.",
  "3A": "Ragged along the cuts, up to 1.6 mm to either side.",
  "2A": "Ragged along most of the cuts, up to 3.2 mm to either side.",
  "1A": "Most of the X under the tape is gone.",
  "0A": "Gone beyond the X as well.",
  "5B": "Cut edges smooth, no square touched.",
  "4B": "Small flakes where cuts cross: less than 5 % of the area.",
  "3B": "Flakes along edges and crossings: 5 to 15 %.",
  "2B": "Edges gone and parts of squares: over 15 to 35 %.",
  "1B": "Strips and whole squares gone: over 35 to 65 %.",
  "0B": "Worse than that: more than 65 %.",
} as const;
