import { describe, expect, test } from "vitest";
import { look, putOut, shedPlan, written } from "../../../tests/shed-trial.ts";
import { lookConflicts } from "./look-conflicts.ts";
import { lookPasses } from "./second-pass.ts";
import { type Observation, trialRecord } from "./trial-record.ts";

type Said = { device?: string; at: string; arrived: string; percent: number };

/** A look at coupon 1 on 3 May, written down at one time and taken in by the shop at another. */
function seen({ device, at, arrived, percent }: Said): Observation {
  return {
    ...written(look("1", "2026-05-03", percent)),
    recordedAt: `2026-05-03T${arrived}:00Z`,
    written: { at: `2026-05-03T${at}:00Z`, deviceClock: `2026-05-03T${at}:00Z`, skewMs: 0 },
    ...(device && { device }),
  };
}

const begun: Observation[] = [
  { ...written({ kind: "plan", plan: shedPlan }), recordedAt: "2026-04-01T08:00:00Z" },
  { ...written(putOut(["1"], "2026-04-01")), recordedAt: "2026-04-01T09:00:00Z" },
];
const recordOf = (...looks: Observation[]) => trialRecord({ id: "shed", name: "shed" }, [...begun, ...looks]);

const ada = { device: "Ada's phone", at: "10:00", arrived: "12:00", percent: 0.3 };
const ines = { device: "Ines's phone", at: "10:20", arrived: "11:00", percent: 1 };

describe("two looks at one coupon", () => {
  test("by two phones that knew nothing of each other are a conflict; the one written first counts, whichever came first", () => {
    const record = recordOf(seen(ines), seen(ada));
    expect(lookConflicts(record)).toMatchObject([
      { counts: { body: { rustedPercent: 0.3 } }, differs: { body: { rustedPercent: 1 } } },
    ]);
    expect(lookPasses(record).first.map(({ body }) => body)).toMatchObject([{ rustedPercent: 0.3 }]);
  });

  test.each([
    ["read alike", { ...ines, percent: 0.3 }],
    ["from one device: a second pass", { ...ines, device: "Ada's phone" }],
    ["the second after the first was in the shop: a second pass", { ...ines, at: "12:30", arrived: "12:31" }],
  ])("%s are none", (_what, second) => expect(lookConflicts(recordOf(seen(ada), seen(second)))).toEqual([]));

  test("are none any more once one of them is taken back", () => {
    const [first, second] = [seen(ada), seen(ines)];
    const choice: Observation = {
      ...written({ kind: "withdrawal" }, { corrects: { id: first.id, why: "Ines had her glasses on" } }),
      recordedAt: "2026-05-03T20:00:00Z",
    };
    const record = recordOf(second, first, choice);
    expect(lookConflicts(record)).toEqual([]);
    expect(record.looks.map(({ body }) => body)).toMatchObject([{ rustedPercent: 1 }]);
  });
});
