/** The simulations of the command line, with the threads of the built program: what a thread counts is what is counted here. */
import { execFile } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { planDraft } from "../src/api/plan.ts";
import { planAssumptions } from "../src/core/trial/plan-assumptions.ts";
import { simulatedPlan } from "../src/core/trial/simulated-plan.ts";
import { simulatedChances, talliedTrials } from "../src/core/trial/simulation-tally.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const bin = join(import.meta.dirname, "..", "dist", "node", "cli", "bin.js");
const command = (...args: string[]) => promisify(execFile)(process.execPath, [bin, ...args]);
const draft = planDraft.parse(
  JSON.parse(readFileSync(join(import.meta.dirname, "tables", "two-oils-draft.json"), "utf8")),
);

describe("simulated from the command line", () => {
  test("a plan: the same counts as without threads, and progress beside the one JSON value", async () => {
    const path = join(await temporaryFolder(), "draft.json");
    writeFileSync(path, JSON.stringify(draft));
    const { stdout, stderr } = await command(
      ...["plan", path, "--simulate", "--control", "25", "--difference", "4", "--trials", "30", "--json"],
    );
    const { simulation } = JSON.parse(stdout);
    const trial = simulatedPlan(draft, draft.questions[0]!, { better: "one", size: 4, assumed: planAssumptions(25) });
    const inline = simulatedChances(talliedTrials(trial, { from: 0, to: 30 }));
    expect(simulation.questions[0].rows[0].chances.all).toEqual(inline.all);
    expect(simulation.questions[0].rows[0].sentence).toMatch(
      /^If the finish held rust off 4 times as long, 6 each would show it/,
    );
    expect(stderr).toMatch(/Simulated in [0-9.]+ s/);
  }, 60_000);

  test("without what is expected of the control nothing is simulated", async () => {
    const path = join(await temporaryFolder(), "draft.json");
    writeFileSync(path, JSON.stringify(draft));
    await expect(command("plan", path, "--simulate")).rejects.toMatchObject({
      code: 2,
      stderr: expect.stringContaining("--control"),
    });
  });

  test("a table: the form stays, the number is confirmed and the notes say for which truth", async () => {
    const path = join(await temporaryFolder(), "wear.csv");
    const rows = [
      ...[14, 21, 21, 28].map((left, at) => `${at},oil,${left},${left + 7}`),
      ...[21, 21, 35, 28].map((left, at) => `${at + 4},wax,${left},${left + 7}`),
    ];
    writeFileSync(path, ["coupon,treatment,left_days,right_days", ...rows].join("\n"));
    const asked = ["findings", path, "--margin", "1.5", "--treated-separately", "--json"];
    const [formula, simulated] = await Promise.all([
      command(...asked),
      command(...asked, "--simulate", "--trials", "30"),
    ]);
    const [before, after] = [JSON.parse(formula.stdout), JSON.parse(simulated.stdout)];
    expect(Object.keys(after)).toEqual(Object.keys(before));
    expect(Object.keys(after.findings[0])).toEqual(Object.keys(before.findings[0]));
    expect(after.findings[0].wouldTell).toEqual([
      { power: 0.8, perTreatment: expect.any(Number) },
      { power: 0.9, perTreatment: expect.any(Number) },
    ]);
    expect(after.notes.at(-1)).toMatch(/confirmed by 30 simulated trials .* differs by a factor of 1.5/);
  }, 60_000);
});
