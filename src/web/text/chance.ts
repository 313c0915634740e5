/** Words around the curve of chances. Its sentences come from the simulation itself. */
import { assumedScatter } from "../../core/trial/assumed-scatter.ts";
import { type DeclaredQuestion, marginKind, responseKind } from "../../core/trial/declared-question.ts";
import type { OtherLayout } from "../../core/trial/other-layouts.ts";
import { asksColour } from "../../core/trial/plan-assumptions.ts";
import { capital } from "../../report/capital.ts";
import { counted } from "./parts.ts";

export const chanceText = {
  title: "How many coupons of each?",
  explain:
    "Drag the handle. This very plan is carried out in invented trials, hundreds of times, and each is judged by the rules that will judge yours.",
  handle: "Coupons of each treatment",
  handleValue: (each: number, sentence: string) => `${each} of each. ${sentence}`,
  figure: (each: number) => `Chance to show the difference, by coupons of each treatment; the plan has ${each} of each`,
  of: "Simulated for",
  controls: (declared: DeclaredQuestion) => {
    const who = declared.order?.[0] ?? "the control";
    const half = `Half of ${who} will`;
    const around = `${capital(who)} will come out around`;
    switch (declared.response) {
      case "time to first rust":
        return `${half} have rusted by`;
      case "strokes to breakthrough":
        return `${half} be worn through after`;
      case "rusted area":
        return `${half} have more rust than`;
      case "tape class":
      case "grade":
        return `${around} class`;
      case "value":
        return declared.kind === "binary" ? `Share of ${who} that will do well, from 0 to 1` : around;
    }
  },
  controlUnits: (declared: DeclaredQuestion) => {
    const { response } = declared;
    if (response === "time to first rust") return "days";
    if (response === "strokes to breakthrough") return "strokes";
    if (response === "rusted area") return "%";
    return response === "value" ? declared.unit : "";
  },
  controlHint: "A guess, or what an earlier trial showed. The curve stands and falls with it.",
  size: "Difference to find",
  sizeUnits: (declared: DeclaredQuestion) =>
    ({
      factor: "times",
      classes: "classes",
      share: "as a share",
      difference: declared.response === "value" ? declared.unit : "",
    })[marginKind(declared)],
  sizeHint: (size: number | null) => (size === null ? "How large a difference matters to you?" : `Empty: ${size}.`),
  from: "Take the scatter from a former trial",
  fromNone: "choose a trial",
  fromClosed: (name: string) =>
    `"${name}" is still looked at blind: what it says of its coupons opens when the trial is closed.`,
  /** null: yes and no have no scatter of their own. */
  scatter: (declared: DeclaredQuestion): { label: string; unit: string; hint: string } | null => {
    if (declared.response === "time to first rust")
      return {
        label: "How alike coupons rust (Weibull shape)",
        unit: "",
        hint: `Empty: ${assumedScatter.shape}. Try 1.3 if they rust very unevenly, 3.5 if nearly at once.`,
      };
    if (declared.response === "strokes to breakthrough")
      return {
        label: "Scatter of the strokes",
        unit: "",
        hint: `Standard deviation of the natural logarithm. Empty: ${assumedScatter.strokesLogSd}, so two coupons in three lie within a quarter of the middle.`,
      };
    const label = "Scatter between coupons treated alike";
    switch (responseKind(declared)) {
      case "area":
        return {
          label,
          unit: "",
          hint: `Standard deviation of the logarithm, base 10. Empty: ${assumedScatter.areaLog10Sd}, so two coupons in three lie within 2.5 times more or less.`,
        };
      case "ordinal":
        return { label, unit: "classes", hint: `Empty: ${assumedScatter.classSd} class to both sides.` };
      case "continuous":
        if (declared.response === "value" && asksColour(declared))
          return {
            label,
            unit: declared.unit,
            hint: `Empty: ${assumedScatter.colourSd} ${declared.unit} to both sides.`,
          };
        return {
          label,
          unit: "%",
          hint: `Empty: ${100 * assumedScatter.coefficientOfVariation} % of the control's value to both sides.`,
        };
      default:
        return null;
    }
  },
  missing: {
    draft: "Fill in the numbers of this form and the curve stands here.",
    control: "Say what you expect of the control, and the curve stands here.",
    size: "Say which difference matters to you, and the curve stands here.",
    scatter: "The scatter is not a number yet; empty it for the usual one.",
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

/** Around the curve that is kept with a plan. */
export const keptText = {
  open: "Simulate this plan and keep what it could show",
  explain:
    "For paper: 2000 invented trials at every point of the curve. It takes some minutes on this device; you may stop it, and what is kept says how many trials each point has.",
  start: "Simulate 2000 trials a point",
  done: (trials: number) => `Done: ${trials} invented trials at every point.`,
  stopped: ({ least, most }: { least: number; most: number }) =>
    `Stopped: ${least === most ? least : `${least} to ${most}`} invented trials at a point so far.`,
  keep: "Keep it with the plan",
  title: (question: string) => `What this plan could show: ${question}`,
  kept: (on: string, by: string, former: boolean) =>
    `Simulated and kept on ${on} by ${by}${former ? ", before the plan was last corrected" : ""}.`,
  missing: {
    draft: "This plan cannot be simulated as it stands.",
    control: "Say what you expect of the control; nobody else can know.",
    size: "Say which difference matters to you.",
    scatter: "The scatter is not a number yet; empty it for the usual one.",
  },
};
