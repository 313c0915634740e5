import { counted } from "./parts.ts";

/** Words of the first page: what needs hands. */
export const todayText = {
  title: "Today",
  groups: { overdue: "Overdue", today: "Today", "this week": "This week" },
  firstUse: "Nothing is in this shop yet.",
  firstUseMore:
    "Coatwright works out what really protects your steel, from a stack of numbered coupons. Begin where you are:",
  demo: "Open the demonstration shop",
  demoMore: "An invented workshop's season outdoors, from the question to its findings. Your own shop stays untouched.",
  demoGo: "Open it",
  demoMaking: "Making it (up to half a minute)…",
  start: "Start a trial",
  startMore: "Ask a question, name the treatments, and let the lot decide which coupon gets which.",
  startGo: "Start",
  notebook: "Bring a notebook",
  notebookMore: "A table of what you wrote down before becomes a trial with its findings.",
  notebookGo: "Bring it",
  trials: "Trials",
  open: "open",
  closed: "closed",
  nothingNow: (next: string | null) =>
    next ? `Nothing needs hands today. Next: ${next}.` : "Nothing needs hands, and no look is planned.",
  needs: (overdue: number, today: number) => {
    if (overdue > 0 && today > 0)
      return `${counted(overdue, "task is", "tasks are")} overdue and ${today} ${today === 1 ? "is" : "are"} due today.`;
    if (overdue > 0) return `${counted(overdue, "task is", "tasks are")} overdue.`;
    return `${counted(today, "task is", "tasks are")} due today.`;
  },
  laterThisWeek: (n: number) => `Nothing needs hands today; ${counted(n, "task comes", "tasks come")} this week.`,
};
