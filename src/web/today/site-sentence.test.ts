import { expect, test } from "vitest";
import type { SiteSummary } from "../../api/shop.ts";
import { siteSentence } from "./site-sentence.ts";

const trial = { id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", name: "shed trial" };
const hours = Array.from({ length: 24 }, () => ({ wetHours: 0, unknownHours: 0 }));
const site = (part: Partial<SiteSummary>): SiteSummary => ({
  site: "River bank",
  hanging: [{ trial, coupons: 30, since: "2026-05-03" }],
  lastReadingAt: "2026-06-01T10:00:00Z",
  lastDay: { endsAt: "2026-06-01T10:30:00Z", endsNow: true, wetHours: 9, unknownHours: 0, hours },
  exposure: { since: "2026-05-03", hours: 700, wetHours: 301.4, unknownHours: 0 },
  ...part,
});

test.each([
  [
    "a log that runs",
    site({}),
    "River bank: 30 coupons out since 3 May 2026; wet 9 of the last 24 hours; 301 of 700 hours wet so far.",
  ],
  [
    "hours that nobody knows are said",
    site({
      lastDay: { endsAt: "2026-06-01T10:30:00Z", endsNow: true, wetHours: 0.5, unknownHours: 6, hours },
      exposure: { since: "2026-05-03", hours: 700, wetHours: 301, unknownHours: 48 },
    }),
    "River bank: 30 coupons out since 3 May 2026; wet 0.5 of the last 24 hours (6 unknown); 301 of 700 hours wet so far (48 unknown).",
  ],
  [
    "two trials at one place",
    site({
      hanging: [
        { trial, coupons: 1, since: "2026-05-03" },
        { trial, coupons: 12, since: "2026-04-02" },
      ],
      exposure: null,
    }),
    "River bank: 13 coupons out since 2 Apr 2026; wet 9 of the last 24 hours.",
  ],
  [
    "no log",
    site({ lastReadingAt: null, lastDay: null, exposure: null }),
    "River bank: 30 coupons out since 3 May 2026; no climate log (bring one on the trial's page, under Outdoors).",
  ],
  [
    "nothing hangs there any more",
    site({ hanging: [], exposure: null }),
    "River bank: nothing hangs there now; wet 9 of the last 24 hours.",
  ],
])("%s", (_what, given, sentence) => expect(siteSentence(given)).toBe(sentence));

test("a log that ended says when", () => {
  const ended = site({
    lastDay: { endsAt: "2026-05-20T10:30:00Z", endsNow: false, wetHours: 14, unknownHours: 0, hours },
    exposure: null,
  });
  expect(siteSentence(ended)).toMatch(/; its log ended 20 May, \d\d:\d\d, with 14 wet of the 24 hours before\.$/);
});
