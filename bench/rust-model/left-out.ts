/** Models learned without some things or places, so that a choice can be tried on photographs that its model has not seen. */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { seededRandom } from "../../src/core/numeric/random.ts";
import type { RustModel } from "../../src/core/vision/rust-model.ts";
import { rustModel1 } from "../../src/core/vision/rust-model-1.ts";
import { learnNetwork } from "./network.ts";
import { type Picture, renderedCoupons } from "./pictures.ts";
import { foldsOf, partsOf, together } from "./samples.ts";

type LeftOut = { groups: readonly string[]; model: RustModel };

/** The same settings with which the model in use was learned. */
const learning = { units: [16, 8], draws: 60_000, passes: 14, decay: 0.02, rate: 2e-3 } as const;

/**
 * One model per part of the photographs that is left out, or per group of parts that `leftOutOf` makes of them; `start` is the network's own
 * seed. Kept in `path` for the next run.
 */
export async function leftOutModels(
  photographs: readonly Picture[],
  start: number,
  path: string,
  leftOutOf: (parts: readonly string[][]) => readonly string[][] = (parts) => parts,
): Promise<readonly LeftOut[]> {
  if (existsSync(path)) return JSON.parse(readFileSync(path, "utf8"));
  const random = seededRandom(20_261);
  const leftOut = leftOutOf(foldsOf(photographs, random));
  const parts = [...photographs, ...(await renderedCoupons(500))].flatMap((picture) => partsOf(picture, random));
  const models = leftOut.map((groups): LeftOut => {
    const samples = together(parts.filter(({ group }) => !groups.includes(group)));
    console.error(`left out: ${groups.join(", ")}`);
    return { groups, model: { ...rustModel1, ...learnNetwork(samples, learning, start) } };
  });
  writeFileSync(path, JSON.stringify(models));
  return models;
}
