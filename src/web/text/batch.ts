/** Words of the page that takes many photographs at once. */
import type { BatchStanding } from "../batch/batch-rows.ts";
import { counted } from "./parts.ts";

export const batchText = {
  start: "Many photographs at once",
  startMore:
    "Each coupon on its measuring card, one face to a picture. A file named for its coupon (7.jpg, coupon-7.jpg) is recognised; for the others the coupon is asked.",
  noCard: "These coupons are larger than any measuring card: photograph them one by one and set their corners by hand.",
  choose: "Choose photographs",
  chooseMore: "Choose more",
  standing: ({ all, done, refused, failed, left }: BatchStanding): string =>
    [
      `${done} of ${counted(all, "photograph")} measured`,
      ...(refused > 0 ? [`${refused} not good enough`] : []),
      ...(failed > 0 ? [`${failed} broke off`] : []),
      ...(left > 0 ? [`${left} left`] : []),
    ].join(", "),
  progress: "Measured of all",
  face: "Face",
  dry: "All are dry and wiped, as the plan says",
  dryMissing: "Say that they are dry and wiped; wet, oily or dusty ones are not rated.",
  faults: { "no coupon": "Which coupon is it?", twice: "Another photograph is of this coupon: leave one out." },
  settle: (rows: number) => `${counted(rows, "photograph")} to be settled first.`,
  go: (rows: number) => `Measure ${counted(rows, "photograph")}`,
  goOn: (rows: number) => `Go on with ${counted(rows, "photograph")}`,
  cancel: "Stop",
  keepOpen: "What this device has kept survives a reload and an empty battery. Opened anew, this page goes on.",
  keeping: (files: number) => `${counted(files, "photograph")} still to be kept on this device. Keep this page open.`,
  waits: (files: number) =>
    `${counted(files, "photograph")} ${files === 1 ? "waits" : "wait"} on this device. Sent without a hand when the shop answers, and measured while this page is open.`,
  chooseAgain: "choose it again",
  again: (files: number) =>
    `${counted(files, "photograph")} ${files === 1 ? "is" : "are"} no longer on this device and not in the shop. Choose the same files again: what is there already is neither sent nor measured twice.`,
  dateForAll: "Date of the look, for photographs that carry none",
  takenOn: "Taken on, by the photograph",
  lookOn: "Date of the look",
  putAway: "Put this list away",
  putAwayMore: "What was sent and measured stays in the shop; a look counts once it is written down.",
  coupon: (file: string) => `Coupon on ${file}`,
  none: "?",
  leaveOut: "Leave out",
  takeIn: "Take in",
  leftOut: "left out",
  states: {
    chosen: "",
    waiting: "Kept on this device, not in the shop yet.",
    sending: (share: number) => `Sending, ${Math.round(100 * share)} %`,
    measuring: "measuring",
    refused: "Not rated.",
    failed: "Broke off.",
  },
  waitingWords: (coupon: string | null, file: string) =>
    `Photograph of many, ${coupon === null ? file : `coupon ${coupon} (${file})`}`,
  written: (date: string) => `Written down for ${date}.`,
  stopped: "The measuring was stopped.",
  heic: "Stored as HEIC, which cannot be read here; export it from the phone as JPEG.",
  read: (percent: string, edge: string | null) =>
    `${percent} % of the face${edge === null ? "" : `, edge band ${edge} %`}`,
  right: "Looks right",
  byHand: "Look at this one by itself",
  pictureAlt: (coupon: string) => `Coupon ${coupon}, rust outlined`,
  write: (looks: number) => `Write down ${counted(looks, "look")}`,
  writing: "Writing them down…",
  nothingToWrite: "Nothing is ticked.",
  back: "Back to the trial",
} as const;
