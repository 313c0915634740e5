/** Words of the trial page, from question to findings. */
import type { PutOut, TakenDownReason } from "../../core/trial/trial-record.ts";
import type { StageId } from "../trial/stages.ts";
import { counted, dateText, listed } from "./parts.ts";

export const trialText = {
  stages: {
    question: "Question",
    treatments: "Treatments",
    size: "Size",
    rack: "Rack",
    done: "Done to them",
    outdoors: "Outdoors",
    looks: "Looks",
    tests: "Tests",
    findings: "Findings",
  } satisfies Record<StageId, string>,
  stagesLabel: "Stages of this trial",
  stageState: { reached: "behind", now: "stands here", ahead: "to come" },
  standing: {
    drawn: (coupons: number) =>
      `${counted(coupons, "coupon is", "coupons are")} drawn and nothing has been done to them yet.`,
    treated: (through: number, of: number) => `${through} of ${of} coupons went through a step; none is outdoors yet.`,
    out: (n: number, sites: string[], day: number) =>
      `${counted(n, "coupon hangs", "coupons hang")} at ${listed(sites)}, on day ${day}.`,
    allDown: "All coupons are down.",
    rusted: (rusted: number, of: number) =>
      rusted === 0 ? `No rust has been seen on any of ${of} so far.` : `Rust was seen on ${rusted} of ${of}.`,
    past: (coupons: number, sites: string[], lastLookDay: number | null) =>
      `${counted(coupons, "coupon")}${sites.length > 0 ? ` at ${listed(sites)}` : ""}${lastLookDay === null ? "" : `, last looked at on day ${lastLookDay}`}.`,
    closed: "The trial is closed; treatments are shown.",
  },
  invented: "Invented: nobody coated or looked at these coupons.",
  notANumber: (typed: string) => `“${typed}” is not a number.`,

  question: {
    declared: "Declared before the first look:",
    family: { control: "each treatment against the control", pairs: "every pair of treatments" },
    inOrder: (order: readonly string[]) => `one test of the order ${order.join(" → ")}`,
    exploratory: "asked after the results were known, so never more than suggested",
  },
  treatments: {
    figure: "Routes side by side",
    control: (name: string) => `The control is ${name}: the others are compared with it.`,
    noControl: "There is no control: treatments are compared pair by pair.",
    witness: (name: string, n: number) =>
      `Apart from the comparisons: ${name}, ${counted(n, "bare witness", "bare witnesses")} that show how harsh the site was.`,
    steps: (steps: string[]) => `Their steps: ${listed(steps)}.`,
    unknown: (names: string[]) => `Nobody wrote down the route of ${listed(names)}.`,
  },
  size: {
    counts: (n: number, blocks: number) => `${counted(n, "coupon")}${blocks > 1 ? ` in ${blocks} blocks` : ""}.`,
    columns: { treatment: "Treatment", coupons: "Coupons", spares: "Spares" },
    ofEach: "Coupons of each treatment",
    outlook: "What this plan can show and what it cannot",
    coupon: (size: string) => `Each coupon is ${size}.`,
    edge: (band: string) => `The outer ${band} count as edge, not as face.`,
    graded: "A face counts as rusted in any class worse than the best.",
    threshold: (percent: number) => `A face counts as rusted above ${percent} %.`,
  },
  rack: {
    sentence: (rows: number, n: number) =>
      `${counted(n, "coupon")} on ${counted(rows, "row")}, in the order that the lot gave.`,
    figure: "The rack: numbered coupons at their places",
    none: "Nobody wrote down where the coupons hung.",
    drawn: (seed: number, spread: boolean) =>
      `Drawn by lot within blocks${spread ? ", again until no treatment hung all on one edge" : ""}; seed ${seed} repeats the draw.`,
    assumed: "How coupons came to their treatments was not written down; a lot is assumed.",
    notRandomised: "The coupons were not given their treatments by lot.",
    legend: "Flag: a deviation touched it. Cross: lost or taken down. Dashed: a spare that took the place over.",
    labels: "Print the labels",
    card: "Print a measuring card",
    map: "Print the rack map",
    whoGetsWhat: "Who gets what (for whoever coats; not for whoever looks)",
    inThisOrder: "Treat them in this order, so that habit and a cooling bath touch all treatments alike.",
    spare: "spare",
    keptFor: { "tape test": "tape test", "weighing by stripping": "stripping" },
    orders: "In which order each step is done (for whoever coats)",
    ordersExplain:
      "By lot, block after block and batch after batch; number after number, each by itself unless a batch is named.",
    stepOrder: (step: string, together: boolean) => (together ? `${step}, together` : step),
    goBatch: (batch: string) => `batch ${batch}: `,
    replaced: (spare: string) => `${spare} took its place`,
    standIn: "A spare takes a place over",
    standInExplain:
      "For a coupon that was lost or spoiled before it went out. The spare gets its block and its place on the rack; from then on it counts in its stead.",
    standInWas: (spare: string, lost: string, why: string) => `Spare ${spare} took the place of coupon ${lost}: ${why}`,
    lostCoupon: "Coupon that lost its place",
    chooseLost: "Choose the coupon",
    spareNumber: "Spare of the same kind",
    chooseSpare: "Choose the spare",
    noSpare: "No spare of its kind is left.",
    because: "Why?",
    keepStandIn: "Let the spare take over",
    needsBecause: "Say why.",
  },
  done: {
    sentence: (steps: number, deviations: number) =>
      steps === 0
        ? "No step has been written down yet."
        : `${counted(steps, "carrying-out", "carryings-out")} of steps ${steps === 1 ? "is" : "are"} written down, ${deviations === 0 ? "no deviation" : counted(deviations, "deviation")}.`,
    record: "Write down a step",
    deviate: "Write down a deviation",
    step: "Step",
    chooseStep: "Choose a step",
    coupons: "Coupons that went through it",
    left: "All still to do",
    startedAt: "Begun",
    endedAt: "Ended",
    endedHint: "May stay empty.",
    temp: "Temperature",
    tempHint: "May stay empty.",
    note: "Note",
    alone: "Each by itself: one dip, wipe or spray for each coupon",
    aloneMeans: (n: number) => `${counted(n, "single record", "single records")}: each coupon counts for itself.`,
    togetherMeans: (n: number) => `One record: these ${n} went through it together and count as one for this step.`,
    keepStep: "Keep this step",
    what: "What went otherwise than planned?",
    affected: "Coupons that it touched",
    ofStep: "In which step",
    noStep: "no particular step",
    paperworkOnly: "Only on paper: it cannot have touched the coupons",
    keepDeviation: "Keep this deviation",
    needsStep: "Choose the step.",
    needsCoupons: "Choose at least one coupon.",
    needsTime: "Say when.",
    needsWhat: "Say what happened.",
    temperature: (text: string) => `at ${text}`,
    through: (n: number) => counted(n, "coupon"),
    paper: "paperwork only",
  },
  outdoors: {
    none: "No coupon is outdoors yet.",
    sentence: (out: number, sites: string[], start: string) =>
      `${counted(out, "coupon hangs", "coupons hang")} at ${listed(sites)}; the first went out on ${dateText(start)}.`,
    past: (coupons: number, sites: string[], start: string) =>
      `${counted(coupons, "coupon")} went out ${sites.length > 0 ? `at ${listed(sites)}, ` : ""}from ${dateText(start)} on${sites.length > 0 ? "" : "; where they hung was not written down"}.`,
    notSaid: "Nobody wrote down that these coupons were outdoors.",
    byDays: "This trial counts days; nobody wrote down when the coupons went out.",
    strip: (site: string) =>
      `Days outdoors at ${site}: wet hours, nights with dew, looks and first rust of each coupon`,
    stripOf: "Days outdoors",
    noAir: (site: string) => `There is no climate log of ${site}; a logger's file can be brought below.`,
    whyWet: "Wet hours",
    whyDew: "Hours with dew on the steel",
    dew: "why dew?",
    zone: "Days and nights run by the clock of",
    sheet: "Steel, both faces in still air",
    heatTransfer: "Heat transfer",
    bringLog: "Bring a climate log",
    putOut: "Put coupons out",
    site: "Site",
    siteHint: "As you call the place: “boathouse wall, south”.",
    date: "Put out on",
    coupons: "Coupons that go out",
    keepPutOut: "Put them out",
    takeDown: "A coupon was lost or taken down",
    spareTakesOver: "A spare takes its place",
    spareHint: "Of the same kind. It gets the block and the place on the rack; put it out like the others.",
    spareChoice: (coupon: string) => `spare ${coupon}`,
    noSpareChoice: "no spare: the place stays empty",
    stillIn: (coupons: string[]) =>
      coupons.length === 1
        ? `Spare ${coupons[0]} took a place over and is not out yet.`
        : `Spares ${listed(coupons)} took places over and are not out yet.`,
    coupon: "Coupon",
    chooseCoupon: "Choose a coupon",
    on: "On",
    reason: "Why",
    reasons: {
      lost: "lost (blown down, stolen, damaged)",
      rust: "rusted through: too far gone to go on",
      state: "its state: coating or wear too far gone",
      test: "taken for a test",
      other: "another reason",
    } satisfies Record<TakenDownReason, string>,
    note: "Note",
    keepTakenDown: "Keep this",
    needsSite: "Name the site.",
    needsDate: "Say when.",
    needsCoupon: "Choose the coupon.",
    wentOut: ({ coupons, site, date }: PutOut) =>
      `${counted(coupons.length, "coupon")} put out ${site === null ? "" : `at ${site} `}on ${dateText(date)}`,
    downWas: (coupon: string, when: string, reason: string) => `Coupon ${coupon} taken down ${when}: ${reason}`,
  },
  calendar: {
    title: "Looks for your calendar",
    out: (n: number) => `${counted(n, "planned look")} as days of your own calendar, with a reminder at eight.`,
    notOut: "No coupon is out yet, so the looks have no dates. Say when the coupons are meant to go out:",
    from: "They go out on",
    get: "Get the calendar file",
    again:
      "It names coupons, never treatments. When the plan or a date changes, get it again: the looks move, none doubles.",
  },
  looks: {
    look: "Look at the coupons",
    blind: "Until the trial is closed this section shows numbers only, in a shuffled order.",
    vanished: (coupon: string, days: readonly number[]) =>
      `Coupon ${coupon}: rust seen on day ${listed(days.map(String))} was gone at a later look, so it does not count as its first rust.`,
    sentence: (n: number, coupons: number) =>
      n === 0 ? "No coupon has been looked at yet." : `${counted(n, "look")} at ${counted(coupons, "coupon")}.`,
  },
  findings: {
    report: "Open the report to print",
    close: "Close the trial",
    closeExplain: "Closing shows which coupon had which treatment. From then on no look is blind any more.",
    closeAsk: "Close the trial and show the treatments?",
    closeGo: "Yes, close it",
    closed: "The trial is closed: treatments are shown beside the coupons.",
  },
  labels: {
    title: (name: string, n: number) => `${counted(n, "label")} for ${name}.`,
    explain: "Numbers only: nobody who looks at a coupon can read its treatment.",
    print: "Print",
    back: "Back to the trial",
    mapTitle: (name: string) => `Rack map of ${name}.`,
  },
};
