/** Words of the tests on coupons: strokes, values of the user's own, times that were written down without looks. */
import type { DeclaredQuestion, ValueResponse, WearPlace } from "../../core/trial/declared-question.ts";
import type {
  FirstRustTime,
  MeasuredValue,
  TapeTest,
  TrialRecord,
  WearTest,
  When,
} from "../../core/trial/trial-record.ts";
import type { WearMotion } from "../../core/trial/wear-conditions.ts";
import { readValueText, tapeText, timeText, wearText } from "../../report/reading-text.ts";
import { askedText } from "./asked.ts";
import { counted, listed, onWhen } from "./parts.ts";

export const testsText = {
  sentence: ({ tapeTests, wearTests, values, weighings, finishColours, firstRustTimes }: TrialRecord) => {
    const said = [
      [tapeTests.length, "tape test"],
      [wearTests.length, "wear test"],
      [values.length, "value"],
      [weighings.length, "weighing"],
      [finishColours.length, "finish colour"],
      [firstRustTimes.length, "time to first rust", "times to first rust"],
    ] as const;
    const some = said.flatMap(([n, one, many]) => (n === 0 ? [] : [counted(n, one, many)]));
    return some.length === 0 ? "No test has been made yet." : `${listed(some)} written down.`;
  },
  tape: "Tape tests",
  wear: "Wear tests",
  firstRust: "Times to first rust",
  group: (title: string, coupons: number) => `${title}: ${counted(coupons, "coupon")}`,
  addTape: "Write down a tape test",
  addWear: "Write down a wear test",
  addValue: "Write down a value",
  onWhen: (when: When | null) => (when === null ? "" : `, ${onWhen(when)}`),
  tapeRow: (test: TapeTest) => `Coupon ${test.coupon}: ${tapeText(test)}${testsText.onWhen(test.when)}`,
  wearRow: (test: WearTest) =>
    `Coupon ${test.coupon}${test.place === null ? "" : `, ${askedText.places[test.place]}`}: ${wearText(test)}${testsText.onWhen(test.when)}`,
  firstRustRow: ({ coupon, leftDays, rightDays }: FirstRustTime) =>
    `Coupon ${coupon}: ${timeText({ left: leftDays, right: rightDays }, "days")}`,
  valueRow: ({ coupon, value, when }: MeasuredValue, asked: ValueResponse | null) =>
    `Coupon ${coupon}: ${readValueText(value, asked)}${testsText.onWhen(when)}`,

  coupon: "Coupon",
  chooseCoupon: "Choose a coupon",
  needsCoupon: "Choose the coupon.",
  date: "Date of the test",
  needsDate: "Write the date of the test.",
  note: "Note",
  knew: "I could tell which treatment it has",
  keep: "Write it down",
  correctOne: "One of each coupon: a better reading corrects the one that stands.",

  place: "Where it was rubbed",
  places: { ...askedText.places, unknown: "not written down" } satisfies Record<WearPlace | "unknown", string>,
  leftStrokes: "Still whole after",
  rightStrokes: "Worn through by",
  rightStrokesHint: "Empty: not worn through when the test was stopped.",
  wearSentence:
    "Rub, stop every few, wipe and look: bright steel in the middle of the track is through. The same load, medium and speed for every coupon.",
  wearCautions: "Loose grit and steel dust: glasses on, no gloves near anything that turns.",
  motion: "What is counted",
  motions: {
    strokes: "strokes, there and back",
    drags: "drags, one way",
    "turns of a tumbler": "turns of a tumbler",
    "minutes in a tumbler": "minutes in a tumbler",
  } satisfies Record<WearMotion, string>,
  counting: "Count",
  every: "Look after every",
  still: (count: number) => `Still whole at ${count}`,
  through: (count: number) => `Through at ${count}`,
  backOne: "Take the last look back",
  countTo: (count: number, motion: WearMotion) => `Next look after ${count} ${motion}.`,
  wornOut: (left: number, right: number) => `Whole at ${left}, through by ${right}.`,
  medium: "What rubs",
  mediumHint: "For instance: felt pad, oiled; leather strop; ceramic chips.",
  grit: "Grit",
  load: "Load on it",
  speed: "How fast",
  perMinute: "per minute",
  by: "Moved",
  bys: { hand: "by hand", jig: "by a jig", unknown: "not written down" },
  massLost: "Coating worn off, weighed",
  massLostHint: "Before less after, on the same balance, wiped clean. Empty: not weighed.",
  unlike: (what: readonly string[]) =>
    `Not as at the coupons before: ${listed(what)}. The answers will name it if it goes with a treatment.`,
  again: "A further run on a fresh place of this coupon: their mean counts",
  againValue: "A further reading of this coupon: they are taken together",
  strokes: "strokes",
  leftDays: "Still clean on day",
  rightDays: "Rust seen by day",
  rightDaysHint: "Empty: none by the last look.",
  days: "days",
  needsNumber: "Write a number of 0 or more.",

  what: "What was measured",
  value: "Value",
  class: (best: number, worst: number) => `Class, ${best} the best, ${worst} the worst`,
  good: { yes: "yes (good)", no: "no (bad)" },
  choose: "Choose",
  needsValue: "Write the value.",
} as const;

/** The values that this trial asks to be written down; those made of weighings have their own sheet. */
export const valuesAsked = (questions: readonly DeclaredQuestion[]): ValueResponse[] => {
  const named = new Map(
    questions.flatMap((one) =>
      one.response === "value" && one.weighed === undefined && one.seen === undefined ? [[one.name, one] as const] : [],
    ),
  );
  return [...named.values()];
};
