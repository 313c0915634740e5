/**
 * What is done to a whole batch at once and not to every treatment: there a batch is the unit, and treatments that share the step can be
 * compared within it.
 */
import type { Treatment } from "./trial-record.ts";

type Routed = Pick<Treatment, "name" | "role" | "route">;

/** Steps done together that some compared treatment has and another has not, in the order of the routes. */
export function batchSteps(treatments: readonly Routed[]): string[] {
  const compared = treatments.filter((one) => one.role !== "witness").map((one) => one.route ?? []);
  const together = compared.flat().filter((step) => step.treated === "together");
  return [...new Set(together.map((step) => step.name))].filter((name) =>
    compared.some((route) => !route.some((step) => step.name === name)),
  );
}

/** Treatments that go through the same batch steps can share a batch; null: none of these steps, so no batch. */
export function batchLevel(treatment: Routed, steps: readonly string[]): string | null {
  const own = (treatment.route ?? []).filter((step) => step.treated === "together" && steps.includes(step.name));
  return own.length === 0 ? null : JSON.stringify(own.map((step) => step.name).sort());
}
