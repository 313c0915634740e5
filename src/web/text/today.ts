import { counted, dateText, instantText, listed } from "./parts.ts";

/** Half an hour counts in a day, not in a month. */
const hours = (value: number): string => String(value < 24 ? Math.round(value * 10) / 10 : Math.round(value));
const unknownPart = (unknown: number): string => (unknown < 0.05 ? "" : ` (${hours(unknown)} unknown)`);

/** Words of the first page: what needs hands. */
export const todayText = {
  title: "Today",
  groups: { overdue: "Overdue", today: "Today", thisWeek: "This week" },
  firstUse: "Nothing is in this shop yet.",
  firstUseMore:
    "Coatwright works out what really protects your steel, from a stack of numbered coupons. Begin where you are:",
  firstUseElsewhere: "A trial is begun on an owner's device; what is then to do stands here.",
  demo: "Open the demonstration shop",
  demoMore: "An invented workshop's season outdoors, from the question to its findings. Your own shop stays untouched.",
  demoGo: "Open it",
  demoMaking: "Making it (up to a minute)…",
  start: "Start a trial",
  startMore: "Ask a question, name the treatments, and let the lot decide which coupon gets which.",
  startGo: "Start",
  notebook: "Bring a notebook",
  notebookMore: "A table of what you wrote down before becomes a trial with its findings.",
  notebookGo: "Bring it",
  sites: {
    title: "Sites",
    out: (coupons: number, since: string) => `${counted(coupons, "coupon")} out since ${dateText(since)}`,
    nothing: "nothing hangs there now",
    lastDay: (wet: number, unknown: number) => `wet ${hours(wet)} of the last 24 hours${unknownPart(unknown)}`,
    ended: (at: string, wet: number) => `its log ended ${at}, with ${hours(wet)} wet of the 24 hours before`,
    soFar: (all: { hours: number; wetHours: number; unknownHours: number }) =>
      `${hours(all.wetHours)} of ${hours(all.hours)} hours wet so far${unknownPart(all.unknownHours)}`,
    noLog: "no climate log (bring one on the trial's page, under Outdoors)",
    wetHours: (site: string) => `Wet hours at ${site}`,
    strip: (site: string, endsAt: string, endsNow: boolean) =>
      `${site}, hour by hour: the 24 hours before ${endsNow ? "now" : instantText(endsAt)}; filled is wet, hatched unknown`,
    dayBefore: "24 h before",
    now: "now",
    logEnds: "end of its log",
  },
  eye: "Train and test your eye",
  conflict: {
    title: (readings: number) => `Two devices differ on ${counted(readings, "reading")}: say which stands`,
    day: (day: number) => `day ${day}`,
    sentence: (what: string, on: string | null) =>
      `Two devices wrote down the ${what}${on === null ? "" : ` of ${on}`} differently. Which stands?`,
    untilThen: (trial: string) =>
      `Of “${trial}”. Until you say, the one written down first counts; both stay in the record.`,
    nameFirst: "Write your name first: it stands beside your choice.",
    stands: (reading: string, by: string, when: string) => `${reading} (${by}, ${when})`,
    why: (reading: string, by: string) => `Two devices wrote this down; ${reading}, by ${by}, stands.`,
  },
  trials: "Trials",
  open: "open",
  closed: "closed",
  lookAt: (coupons: readonly string[]) =>
    coupons.length <= 8 ? `Look at ${listed(coupons)}` : `Look at ${coupons.length} coupons`,
  reason: ({ number, of, trial, date }: NextLook) =>
    `Look ${number} of ${of} of “${trial.name}”, planned for ${dateText(date)}`,
  go: "Look",
  nothingNow: (next: NextLook | null) =>
    next
      ? `Nothing needs hands today. Next: look ${next.number} of ${next.of} of “${next.trial.name}”, on ${dateText(next.date)}.`
      : "Nothing needs hands, and no look is planned.",
  needs: (overdue: number, today: number) => {
    if (overdue > 0 && today > 0)
      return `${counted(overdue, "look is", "looks are")} overdue and ${today} ${today === 1 ? "is" : "are"} due today.`;
    if (overdue > 0) return `${counted(overdue, "look is", "looks are")} overdue.`;
    return `${counted(today, "look is", "looks are")} due today.`;
  },
  laterThisWeek: (n: number) => `Nothing needs hands today; ${counted(n, "look comes", "looks come")} this week.`,
};

type NextLook = { number: number; of: number; trial: { name: string }; date: string };
