/** Words of the screen that corrects a plan. */
export const correctPlanText = {
  title: (name: string) => `The plan of ${name}, corrected: the former one stays to be read.`,
  allOpen:
    "Nothing was done to a coupon yet, so everything may be changed. Another number of coupons, blocks or rack places draws a new lot.",
  lotStays: "Something was done to the coupons already: treatments, numbers and places stay as the lot gave them.",
  noLookYet: "Nobody has looked yet: what is asked may still be declared otherwise.",
  looksSeen:
    "Looks are on record. A question that is changed now becomes exploratory: it can be suggested, never shown. Only further look days leave no mark.",
  coupon: "Coupons",
  seed: "Seed, should a new lot be drawn",
  seedHint: "Another one than before: a lot that did not please must not be shuffled until it does.",
  means: "What this changes",
  unfinished: "A field needs another look.",
  nothing: "Nothing is changed yet.",
  newLot: "A new lot is drawn: coupons get other treatments and places. Labels and rack map are to be printed anew.",
  exploratory: (question: string) =>
    `“${question}” becomes exploratory: its results could be known when it was declared so.`,
  noMark: "No question is marked by it.",
  keep: "Keep the corrected plan",
  back: "Back to the trial, nothing changed",
};
