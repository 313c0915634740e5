import { capital } from "../../report/capital.ts";
import { counted } from "./parts.ts";

const megabytes = (bytes: number) =>
  bytes >= 1e9 ? `${(bytes / 1e9).toFixed(1)} GB` : `${Math.round(bytes / 1e6)} MB`;

/** A photograph may be taken before its coupon is chosen. */
const ofCoupon = (coupon: string) => (coupon === "" ? "" : `, coupon ${coupon}`);

/** Words of what is recorded while the shop does not answer. */
export const waitingText = {
  title: "Waiting to be sent",
  nothing: "Nothing waits on this device: all that was recorded here is in the shop.",
  sentence: (n: number) =>
    `${counted(n, "thing")} recorded on this device ${n === 1 ? "is" : "are"} not in the shop yet.`,
  more: "All of it survives a reload and an empty battery, and is sent by itself, in the order of writing down.",
  away: "no answer",
  awayMore: "The shop does not answer just now. What you record is kept on this device.",
  asOf: (when: string) => `Shown as the shop last told it, ${when}.`,
  clockOff: (minutes: number) =>
    `This device's clock is ${counted(Math.abs(minutes), "minute")} ${minutes > 0 ? "behind" : "ahead of"} the shop's. What is recorded here gets the shop's time; a date that a form fills in may be wrong.`,
  mark: (n: number) => `${n} waiting`,
  sendAll: "Send now",
  written: (when: string) => `written down ${when}`,
  photo: (inspection: string) => `Photograph of ${inspection}`,
  tapePhoto: (which: "before" | "after", coupon: string) => `Photograph ${which} the pull${ofCoupon(coupon)}`,
  colourPhoto: (coupon: string) => `Photograph of a finish colour${ofCoupon(coupon)}`,
  reading: (of: "tape test" | "finish colour", coupon: string) =>
    `${of === "tape test" ? "Photographs of a tape test" : "Finish colour"}${ofCoupon(coupon)}: will be read when the shop is reached`,
  correction: (coupon: string) => `Brush correction${ofCoupon(coupon)}: will be measured when the shop is reached`,
  correctionKept:
    "The shop does not answer just now. Your correction is kept on this device; it is measured by itself when the shop is reached.",
  correctionGoesOn: "This coupon can be rated then. Go on with the next one.",
  readLater: "Read from the photographs once the shop was reached",
  trial: (name: string) => `New trial: ${name}`,
  eyeTest: (plates: number) => `Test of the eye, ${counted(plates, "plate")}`,
  readings: (n: number, site: string) => `${counted(n, "climate reading")} of ${site}`,
  onItsWay: (share: number) => `On its way, ${Math.round(share * 100)} %`,
  refused: (why: string) => `The shop would not take this. ${capital(why)}`,
  elsewhere: "The shop has another address now, or this device is given away",
  elsewhereMore:
    "What waits belongs to the address at which it was written down. Save it as a file here, open this page at the shop's new address, and take the file in there. Nothing is stored twice, also when both send it. Its photographs still say where they were taken, if the phone wrote that: give the file to nobody else.",
  giveFile: "Give me what waits as a file",
  takeFile: "Take such a file in",
  fileGiven: (n: number) => `${counted(n, "thing")} saved. They go on waiting here too until the shop has them.`,
  fileTaken: (n: number, here: number) =>
    `${counted(n, "thing")} taken in.${here > 0 ? ` ${here} waited here already.` : ""} What the shop has already it does not store again.`,
  noSuchFile: "This is no file of things that wait, or it was changed. Choose the one that the Waiting page saved.",
  brokenFile: "This file is not whole: save it once more at the old address. Nothing of it was taken in.",
  again: "Send it again",
  mend: "Mend it",
  mended: "Keep and send",
  noObservation: "One of these is still no such value: a date reads 2026-03-01, a number has no letters.",
  setCorners: "Set its corners",
  corners: "Drag the four rings onto the corners, beginning at the top left as the number reads.",
  cornersOf: { face: "The face", before: "Before the pull", after: "After the pull" },
  cornersSend: "Read it with these",
  noPicture: "The picture cannot be shown just now: it is in the shop, and the shop does not answer.",
  drop: "Throw it away",
  dropWhy: "Why is it thrown away?",
  dropWhyMissing: "Say why it is thrown away; this device remembers it.",
  dropGo: "Throw it away for good",
  back: "Leave it",
  toRate: "Arrived, to be rated",
  rate: (coupon: string, face: string) => `Rate coupon ${coupon}, ${face}`,
  dropped: (n: number) => `${counted(n, "thing")} thrown away unsent`,
  droppedWhy: (when: string, why: string) => `thrown away ${when}: ${why}`,
  room: (used: number, free: number) =>
    `This page uses ${megabytes(used)} of this device; about ${megabytes(free)} are free for it.`,
  nearlyFull:
    "This device has hardly any room left: a few photographs may still be kept. Send what waits, or free some room, before you take more.",
};
