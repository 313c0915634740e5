/** Words of the pages on which a trial's photographs get their model, and the model is taught by strokes. */
import { counted } from "./parts.ts";

export const readingText = {
  programs: "the model that comes with the program",
  version: (name: string, version: number) => `“${name}”, version ${version}`,
  sentence: (model: string) => `This trial's photographs are read by ${model}.`,
  sentenceMore:
    "A few strokes on a photograph fit the reading to a finish and its light. Every version is kept, each rating names the one that read it, and an older one can be chosen again.",
  choose: "Read this trial's photographs by",
  programsMore: "Learned on open photographs of rust; knows no finish in particular.",
  light: (finishAndLight: string) => `For: ${finishAndLight}.`,
  saved: (by: string, at: string) => `${by}, ${at}.`,
  taughtBy: (strokes: number, photographs: number) =>
    `Taught by ${counted(strokes, "stroke")} on ${counted(photographs, "photograph")}`,
  refines: (model: string) => `, refining ${model}.`,
  refinesPrograms: ", refining the program's own.",
  usedBy: (trials: readonly string[]) => `Read by it now: ${trials.join(", ")}.`,
  usedByNone: "No trial is read by it now.",
  save: "Read them by this from now on",
  fromNow:
    "Photographs already measured keep their numbers. A trial read by one model from its first look to its last compares best.",
  teachTitle: "Teach it by strokes on a photograph",
  noPhotographs: "No photograph of this trial has been measured yet.",
  photograph: (coupon: string, date: string, percent: string) => `Coupon ${coupon}, ${date}: ${percent} %`,
  back: "Back to the trial",
} as const;

export const teachText = {
  title: (coupon: string | null) =>
    coupon === null ? "What is rust here, and what is not?" : `Coupon ${coupon}: what is rust here, and what is not?`,
  sentence: "Paint a few short strokes on rust, and a few on what was wrongly taken for rust or only looks like it.",
  from: "Refine",
  needsBoth: "At least one stroke on rust and one on what is not rust.",
  tryIt: "Try it",
  trying: "Reading with your strokes…",
  before: "As it was read",
  after: "With your strokes",
  read: (percent: string, grade: number) => `${percent} % of the face, D610 grade ${grade}`,
  beforeAlt: "The coupon cut out straight, rust outlined as it was read",
  afterAlt: "The coupon cut out straight, rust outlined as your strokes would have it",
  caution:
    "It learns for this finish in this light. Look at the new outline on other photographs too before a trial is read by it.",
  stale: "Strokes were changed since: try it again.",
  keepTitle: "Keep it",
  name: "Name",
  nameHint: "A name that is there already gets its next version.",
  nameMissing: "Give it a name, for instance the finish.",
  light: "For which finish, in which light",
  lightHint: "For instance: dry manganese phosphate, two lamps and a white sheet.",
  lightMissing: "Write the finish and the light it was taught in.",
  youMissing: "Write who taught it.",
  choose: "Read this trial's photographs by it from now on",
  keep: "Keep this version",
  back: "Back, and keep nothing",
} as const;

export const readAgainText = {
  title: (photographs: number) =>
    `${counted(photographs, "photograph")} ${photographs === 1 ? "was" : "were"} read by an older way`,
  done: "All photographs are read by one way now",
  sentence: (model: string) =>
    `Read again by ${model}, all numbers of this trial compare. The older number of each look stays in its history, with the reason.`,
  closed:
    "This trial is closed and its treatments are known: its numbers stay as they were read while nobody knew them.",
  byHand: (photographs: number) =>
    `${counted(photographs, "photograph")} mended by hand ${photographs === 1 ? "stays" : "stay"} as the hand left ${photographs === 1 ? "it" : "them"}.`,
  reason: (model: string) => `read again by ${model}`,
  youMissing: "Write who has them read again.",
  progress: "Read again of all",
  standing: (done: number, all: number) => `${done} of ${all} read again.`,
  refused: (coupon: string, why: string) => `Coupon ${coupon} keeps its number: ${why}`,
  start: "Read them again",
  stop: "Stop",
} as const;
