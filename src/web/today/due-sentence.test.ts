import { expect, test } from "vitest";
import type { DueToday } from "../../api/shop.ts";
import { dueSentence } from "./due-sentence.ts";

const look = {
  trial: { id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", name: "shed trial" },
  day: 28,
  date: "2026-04-01",
  number: 4,
  of: 10,
  coupons: ["3", "9"],
  reason: "look 4 of 10, planned for 2026-04-01",
};
const due = (part: Partial<DueToday>): DueToday => ({
  date: "2026-03-01",
  overdue: [],
  today: [],
  thisWeek: [],
  later: [],
  ...part,
});

test.each([
  ["nothing planned", due({}), "Nothing needs hands, and no look is planned."],
  [
    "the next thing is far off",
    due({ later: [look] }),
    "Nothing needs hands today. Next: look 4 of 10 of “shed trial”, on 1 Apr 2026.",
  ],
  ["later this week", due({ thisWeek: [look], later: [look] }), "Nothing needs hands today; 1 look comes this week."],
  ["today", due({ today: [look] }), "1 look is due today."],
  ["overdue", due({ overdue: [look, look] }), "2 looks are overdue."],
  ["both", due({ overdue: [look], today: [look] }), "1 look is overdue and 1 is due today."],
])("%s", (_what, given, sentence) => expect(dueSentence(given)).toBe(sentence));
