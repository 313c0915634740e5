/** Words around the curve of chances. Its sentences come from the simulation itself. */
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { marginKind } from "../../core/trial/declared-question.ts";
import type { OtherLayout } from "../../core/trial/other-layouts.ts";
import { counted } from "./parts.ts";

export const chanceText = {
  title: "How many coupons of each?",
  explain:
    "Drag the handle. This very plan is carried out in invented trials, hundreds of times, and each is judged by the rules that will judge yours.",
  handle: "Coupons of each treatment",
  handleValue: (each: number, sentence: string) => `${each} of each. ${sentence}`,
  figure: (each: number) => `Chance to show the difference, by coupons of each treatment; the plan has ${each} of each`,
  controls: ({ response }: Pick<DeclaredQuestion, "response">) =>
    ({
      "time to first rust": "Half of the control will have rusted by",
      "strokes to breakthrough": "Half of the control will be worn through after",
      "rusted area": "Half of the control will have more rust than",
      "tape class": "The control will come out around class",
      grade: "The control will come out around class",
      value: "The control will come out around",
    })[response],
  controlUnits: ({ response }: Pick<DeclaredQuestion, "response">) =>
    ({
      "time to first rust": "days",
      "strokes to breakthrough": "strokes",
      "rusted area": "%",
      "tape class": "",
      grade: "",
      value: "",
    })[response],
  controlHint: "A guess, or what an earlier trial showed. The curve stands and falls with it.",
  size: "Difference to find",
  sizeUnits: (declared: DeclaredQuestion) =>
    ({ factor: "times", classes: "classes", share: "as a share", difference: "" })[marginKind(declared)],
  sizeHint: (size: number | null) => (size === null ? "How large a difference matters to you?" : `Empty: ${size}.`),
  shape: "How alike coupons rust (Weibull shape)",
  shapeHint: "Empty: 2. Try 1.3 if they rust very unevenly, 3.5 if nearly at once.",
  missing: {
    draft: "Fill in the numbers of this form and the curve stands here.",
    control: "Say what you expect of the control, and the curve stands here.",
    size: "Say which difference matters to you, and the curve stands here.",
  },
  working: (trials: number, wanted: number) => {
    if (trials === 0) return "Simulating…";
    return trials < wanted
      ? `Simulating: ${trials} of ${wanted} invented trials where the handle stands.`
      : `${wanted} invented trials where the handle stands; the rest of the curve follows.`;
  },
  done: (trials: number) => `From ${trials} invented trials of this plan for each line.`,
  stopped: "Stopped.",
  stop: "Stop",
  goOn: "Go on",
  band: "Shaded: two Monte Carlo errors of the simulation to both sides.",
  unequal: (each: number) =>
    `You have different numbers of coupons; the curve takes the same number of each. The handle stands at the fewest, ${each}.`,
  nothing: "With this layout nothing can be shown, whatever the finishes do.",
  assumedTitle: "What it assumes",
  layouts: "Compare other layouts of the same coupons",
  layoutsTitle: "The same coupons, laid out otherwise",
  layoutColumns: { layout: "Layout", one: "If one is better", all: "If all are better" },
  layout: ({ blocks, inEachBlock }: OtherLayout) =>
    blocks === 1 ? "no blocks" : `${counted(blocks, "block")} of ${inEachBlock}`,
  asPlanned: "as planned",
  take: "Use it",
  takeNamed: (layout: string) => `Use ${layout}`,
  layoutsNote: "Blocks guard against places that differ more than assumed; they cost chance where places are alike.",
  smallest: "Which difference would it show in 8 trials of 10?",
  smallestIs: { one: "If one is better", all: "If all are better" },
  smallestFound: (factor: number) => `${Number(factor.toPrecision(2))} times`,
  smallestNone: "not even 20 times",
  progress: (share: number) => `${Math.round(100 * share)} %`,
  cancel: "Cancel",
  broken: (why: string) => `The simulation stopped: ${why}`,
};
