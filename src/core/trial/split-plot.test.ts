import { describe, expect, test } from "vitest";
import { yatesOats } from "../../../tests/yates-oats.ts";
import { seededRandom } from "../numeric/random.ts";
import { splitPlotAnova } from "../statistics/split-plot-anova.ts";
import { answerQuestion } from "./answer-question.ts";
import { fittedModels } from "./fitted-models.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { trialLayout } from "./units-of-replication.ts";

type Cell = { whole: string; sub: string; batch: number; datum: QuestionCoupon["datum"]; block?: string };

/** Baths run for a whole batch, finishes put on coupon by coupon inside it. */
function splitPlot(cells: readonly Cell[], more: Partial<Question> = {}): Question {
  const name = ({ whole, sub }: Cell) => `${whole}, ${sub}`;
  const coupons = cells.map((cell, at): QuestionCoupon => {
    const plot = String(cell.batch);
    return {
      coupon: String(at + 1),
      treatment: name(cell),
      block: cell.block ?? null,
      plot,
      applications: { [`${cell.whole} bath`]: `run ${plot}`, [cell.sub]: `coupon ${at + 1} by itself` },
      circumstances: {},
      deviation: null,
      datum: cell.datum,
    };
  });
  const treatments = [...new Set(cells.map(name))];
  return {
    response: "coating mass",
    kind: "continuous",
    unit: "g/m²",
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: null,
    family: "pairs",
    control: null,
    margin: null,
    treatments,
    witnesses: [],
    coupons,
    routes: Object.fromEntries(treatments.map((one) => [one, [`${one.split(", ")[0]} bath`, one.split(", ")[1]!]])),
    randomised: true,
    blind: true,
    declared: true,
    treatedSeparately: "recorded",
    seed: 1,
    notes: [],
    ...more,
  };
}

const oatCells = yatesOats.flatMap((block, b) =>
  block.flatMap((plot, w) =>
    plot.map(
      (value, s): Cell => ({ whole: `v${w}`, sub: `n${s}`, batch: 3 * b + w, block: String(b), datum: { value } }),
    ),
  ),
);
const halfWidth = (question: Question, first: string, second: string) => {
  const { effect } = answerQuestion(question).findings.find((one) => one.first === first && one.second === second)!;
  return (effect!.upper! - effect!.lower!) / 2;
};

describe("measured values in a split plot", () => {
  const question = splitPlot(oatCells);
  const model = fittedModels(question, trialLayout(question)).family.value!;
  const { ssWholeError, ssSubError } = splitPlotAnova({ values: yatesOats });

  test("within a batch the sub-plot error judges, with its degrees of freedom", () => {
    const { errorDf, fit } = model("v0, n0", "v0, n3");
    expect(errorDf).toBe(45);
    expect(fit!.meanSquare).toBeCloseTo(ssSubError / 45, 9);
    // t(0.975; 45) = 2.0141; the standard error 7.683 of two rates in one variety is that of R's model.tables.
    expect(halfWidth(question, "v0, n0", "v0, n3") / 2.01410338888085).toBeCloseTo(7.683, 3);
  });

  test("between batches the whole-plot error takes part, and only batches count as degrees of freedom", () => {
    const { errorDf, fit } = model("v0, n0", "v1, n0");
    expect(errorDf).toBe(10);
    expect(fit!.meanSquare).toBeCloseTo((ssWholeError / 10 + 3 * (ssSubError / 45)) / 4, 9);
    // t(0.975; 10) = 2.2281; 9.715 is the standard error of two varieties at one rate (Venables and Ripley, R's model.tables).
    expect(halfWidth(question, "v0, n0", "v1, n0") / 2.22813885198627).toBeCloseTo(9.715, 3);
  });

  test("a bath with one finish each is judged by its batches alone", () => {
    const one = splitPlot(oatCells.filter((cell) => cell.sub === "n0"));
    const { errorDf } = fittedModels(one, trialLayout(one)).family.value!("v0, n0", "v1, n0");
    expect(errorDf).toBe(10);
  });

  test("a missing coupon: the same scatters by least squares, near what they were", () => {
    const lacking = splitPlot(oatCells.slice(1));
    const models = fittedModels(lacking, trialLayout(lacking)).family.value!;
    expect(models("v0, n0", "v0, n3").errorDf).toBe(44);
    const { errorDf, fit } = models("v0, n0", "v1, n0");
    expect(errorDf).toBe(10);
    expect(fit!.meanSquare / model("v0, n0", "v1, n0").fit!.meanSquare).toBeGreaterThan(0.8);
    expect(fit!.meanSquare / model("v0, n0", "v1, n0").fit!.meanSquare).toBeLessThan(1.25);
  });
});

const baths = (batches: number, value: (cell: Omit<Cell, "datum">) => QuestionCoupon["datum"]): Cell[] =>
  ["zinc", "manganese"].flatMap((whole, w) =>
    Array.from({ length: batches }, (_, batch) =>
      ["oil", "wax"].map((sub) => {
        const cell = { whole, sub, batch: w * batches + batch };
        return { ...cell, datum: value(cell) };
      }),
    ).flat(),
  );
const finding = (question: Question, first: string, second: string) =>
  answerQuestion(question).findings.find((one) => one.first === first && one.second === second)!;
const ordinal = { kind: "ordinal", unit: "classes", scale: { best: 10, worst: 0 } } as const;

describe("what a batch decides", () => {
  test("one run of each bath says nothing about the baths, and the finishes are compared inside it", () => {
    const one = splitPlot(
      ["zinc", "manganese"].flatMap((whole, batch) =>
        ["oil", "wax"].flatMap((sub) =>
          [1, 2, 3, 4].map((at): Cell => ({ whole, sub, batch, datum: { value: at + (sub === "wax" ? 5 : 0) } })),
        ),
      ),
      ordinal,
    );
    expect(finding(one, "zinc, oil", "manganese, oil").verdict).toBe("cannot be told");
    // Four and four coupons within one batch: 2 of 70.
    expect(finding(one, "zinc, oil", "zinc, wax").p).toBeCloseTo(2 / 70, 12);
    expect(finding(one, "zinc, oil", "zinc, wax").n).toEqual([4, 4]);
  });

  test("four runs of each bath: 2 of 70 for the baths, 2 of 2^4 for finishes within their batches", () => {
    const clear = splitPlot(
      baths(4, ({ whole, sub, batch }) => ({
        value: batch / 10 + (whole === "zinc" ? 5 : 0) + (sub === "wax" ? 1 : 0),
      })),
      ordinal,
    );
    const betweenBaths = finding(clear, "zinc, oil", "manganese, oil");
    expect(betweenBaths.p).toBeCloseTo(2 / 70, 12);
    expect(betweenBaths.n).toEqual([4, 4]);
    const inBaths = finding(clear, "zinc, oil", "zinc, wax");
    expect(inBaths.p).toBeCloseTo(2 / 16, 12);
    expect(inBaths.pMin).toBeCloseTo(2 / 16, 12);
  });

  test("batches that scatter do not hide a finish, and coupons in them do not make a bath of more", () => {
    const scattered = splitPlot(
      baths(6, ({ sub, batch }) => ({ value: ((batch * 37) % 11) * 10 + (sub === "wax" ? 3 : 0) })),
      ordinal,
    );
    expect(finding(scattered, "zinc, oil", "zinc, wax").p).toBeCloseTo(2 / 64, 12);
    expect(finding(scattered, "zinc, oil", "manganese, oil").p).toBeGreaterThan(0.2);
  });

  test("without any difference nothing is shown more often than 5 % of trials: batches scatter as much as coupons", () => {
    let wrong = 0;
    const trials = 60;
    for (let seed = 1; seed <= trials; seed++) {
      const { next } = seededRandom(seed);
      const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
      const batches = new Map<number, number>();
      const cells = baths(4, ({ batch }) => {
        const own = batches.get(batch) ?? normal();
        batches.set(batch, own);
        return { value: own + normal() };
      });
      const { findings } = answerQuestion(splitPlot(cells), { draws: 199 });
      if (findings.some((one) => one.verdict === "shown")) wrong++;
    }
    expect(wrong / trials).toBeLessThanOrEqual(0.05 + 3 * Math.sqrt((0.05 * 0.95) / trials));
  });
});

describe("sets of treatments that share their batches in part", () => {
  test("coupons inside a batch are dealt anew one by one there, also when another bath stands beside them", () => {
    // Two coupons of oil and of wax in each of four zinc batches, one of oil in each manganese batch: wax is far better, the baths are alike.
    const cells = [0, 1, 2, 3].flatMap((batch): Cell[] => [
      ...[0, 1].map((at): Cell => ({ whole: "zinc", sub: "oil", batch, datum: { value: 2 + ((batch + at) % 3) } })),
      ...[0, 1].map((at): Cell => ({ whole: "zinc", sub: "wax", batch, datum: { value: 7 + ((batch + at) % 3) } })),
      { whole: "manganese", sub: "oil", batch: batch + 4, datum: { value: 2 + (batch % 3) } },
    ]);
    const question = splitPlot(cells, ordinal);
    const inside = finding(question, "zinc, oil", "zinc, wax");
    // 6 ways in each of four batches, two of them farthest: not the 2 of 2^4 of batch means.
    expect(inside.p).toBeCloseTo(2 / 6 ** 4, 10);
    expect(inside.verdict).toBe("shown");
    expect(finding(question, "zinc, oil", "manganese, oil").n).toEqual([4, 4]);
    expect(finding(question, "zinc, oil", "manganese, oil").verdict).toBe("not told apart");
  });
});
