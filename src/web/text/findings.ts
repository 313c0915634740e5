/** Words around the findings; what a finding says comes finished from the house's core. */
export const findingsText = {
  blind: "This trial is still blind.",
  blindMore:
    "Findings name the treatment of each numbered coupon. They open when the trial is closed, so that nobody looks at a coupon and knows.",
  none: "No question was declared for this trial.",
  computing: "Working the findings out on this device…",
  notYet: (response: string, why: string) => `About ${response} nothing can be said yet: ${why}.`,
  broken: (why: string) => `The findings could not be worked out. ${why}`,
  several: (questions: number) =>
    `${questions} questions were declared, each with its own 5 %: the chance that something is called “shown” by mistake is at most ${5 * questions} %.`,
  legend: "The five verdicts",
  nextTrial: "Simulate what the next trial needs",
  nextTrialTitle: "What the next trial needs",
  nextTrialPair: (first: string, second: string) => `${first} against ${second}:`,
} as const;
