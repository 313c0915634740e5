/** The printed report's own words, apart from its layout. */
export const reportText = {
  invented: "Invented data and rendered pictures: a demonstration, not an observation.",
  question: "Question",
  plan: "Plan",
  looksPlanned: (days: readonly number[]) =>
    `Looks planned on ${days.length === 1 ? "day" : "days"} ${days.join(", ")}.`,
  rustedAbove: (percent: string) => `A face counts as rusted above ${percent} % of it.`,
  rustedByClass: "A face counts as rusted in any class worse than the best.",
  edgeBand: (width: string) => `An edge band of ${width} is measured apart.`,
  simulated: (question: string) => `What this plan could show: ${question}`,
  simulatedOn: ({ on, by, former }: { on: string; by: string; former: boolean }) =>
    `Simulated with invented trials and kept on ${on} by ${by}${former ? ", before the plan was last corrected" : ""}.`,
  planCorrected: ({ on, by, why }: { on: string; by: string; why: string }) =>
    `The plan was corrected on ${on} by ${by}: ${why}`,
  happened: "What happened",
  photographs: "Photographs and their measured areas",
  tests: "Tests",
  noDate: "not written down",
  findings: "Findings",
  deviations: "Deviations",
  method: "Method",
  cautions: "Cautions",
  stillBlind:
    "This trial is not closed: whoever inspects its coupons should not read this report, since it names their treatments.",
  noQuestionYet: "No look has been entered yet, so nothing is answered.",
  noDeviations: "None was written down.",
  noLog: "No climate log of this site was kept.",
  noPhotographs: "No photograph has been measured.",
  photographNote: "Rust is outlined as it was measured. Percentages are of the face without its edge band.",
  severalQuestions: (count: number) =>
    count > 1
      ? `${count} questions were declared; each keeps its own 5 %, so the chance of some false "shown" in this report is at most ${5 * count} %.`
      : "",
  intervals: "Intervals are for one comparison alone; verdicts allow for all comparisons of a question.",
  cautionLines: [
    "A finding speaks for these coupons at this site in these weeks; other steel, other weather and edges may differ.",
    "Hot acid, hydrogen, hot oil and sprays can hurt: the supplier's safety data sheet, local codes and licensed disposal come before anything written here.",
    "Solvent-borne products are never warmed. Acid goes into water. Galvanised, aluminium and sealed hollow parts never go into the bath.",
    "Hardened or highly stressed steel: ask about hydrogen embrittlement before any acid.",
  ],
} as const;

/** Words of the calendar of looks. */
export const calendarText = {
  name: (trial: string) => `Looks: ${trial}`,
  look: ({ number, of }: { number: number; of: number }, trial: string) => `Look ${number} of ${of}: ${trial}`,
  calledOff: ({ number }: { number: number }, trial: string) => `No longer planned: look ${number}: ${trial}`,
  coupons: (coupons: readonly string[]) => `Coupons to look at: ${coupons.join(", ")}`,
} as const;
