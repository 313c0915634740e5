/** Words of the weighing sheet. */

import type { Weighing } from "../../core/trial/trial-record.ts";
import type { WeighedState } from "../../core/trial/weighed-as.ts";
import { weighingText as readText } from "../../report/reading-text.ts";
import { onWhen } from "./parts.ts";

export const weighingText = {
  open: "Weigh coupons",
  title: "Weighings",
  blindTitle: "Weighings (masses may tell treatments apart)",
  sheet:
    "Put each on the balance twice; write it down once it shows the same both times. Dry, clean and at the temperature of the room.",
  balance: "Last digit of the balance",
  balanceHint: "Asked once for the shop. A balance that shows 87.43 g resolves 10 mg.",
  balanceKept: "Kept for the shop.",
  keepBalance: "Keep for the shop",
  needsBalance: "Say first what the balance resolves.",
  wrongBalance: "Write a number of milligrams, 0.001 or more.",
  state: "Weighed now",
  states: {
    bare: "bare, degreased, dry",
    coated: "coated, dry, no oil yet",
    stripped: "stripped of its coating",
    oiled: "oiled, dripped off",
    wiped: "oiled and wiped",
    drained: "oiled, after days of drip",
  } satisfies Record<WeighedState, string>,
  together: "On the balance at once",
  one: "one coupon",
  several: (n: number) => `${n} or more, hung together`,
  area: (areaCm2: string) => `A coupon has ${areaCm2} cm² all round, by the plan's size.`,
  coupons: (numbers: readonly string[]) =>
    numbers.length === 1 ? `Coupon ${numbers[0]}` : `Coupons ${numbers.join(", ")} together`,
  groupsTell:
    "Hung together are coupons of one treatment, so the list shows which belong together. Whoever grades rust by eye in this trial should not read it.",
  nameGroups: "I do not grade by eye: show who hangs together",
  weighedOut: (known: number, refused: number) =>
    `${known} ${known === 1 ? "is" : "are"} known${refused > 0 ? `, ${refused} ${refused === 1 ? "says" : "say"} nothing` : ""}.`,
  whatTheySay: "What they say (masses may tell treatments apart)",
  date: "Date of the weighing",
  needsMass: "Write at least one mass, each in grams.",
  needsDate: "Write the date of the weighing.",
  mass: "Mass",
  done: (n: number) =>
    n === 1
      ? "One is weighed in this state already; it stands above."
      : `${n} are weighed in this state already; they stand above.`,
  stripping:
    "The standard stripper holds chromium(VI), which causes cancer: send the coupons out to a laboratory, or skip it and weigh the gain. A bare coupon stripped beside them takes off what the stripper takes from steel.",
  keep: "Write these down",
  result: (numbers: string, sentence: string) => `Coupon ${numbers}: ${sentence}`,
  row: (body: Weighing) => `Coupon ${body.coupon}: ${readText(body)}, ${onWhen(body.when)}`,
  knew: "I could tell which treatment they have",
  note: "Note",
} as const;
