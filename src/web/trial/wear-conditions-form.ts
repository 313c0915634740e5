/** What rubs and how, as it is typed, and its way to a record. */
import type { WearConditions, WearMotion } from "../../core/trial/wear-conditions.ts";
import { typedNumber } from "../parts/quantity.ts";

export type ConditionsForm = {
  motion: WearMotion;
  medium: string;
  grit: string;
  loadG: string;
  perMinute: string;
  by: "hand" | "jig" | "unknown";
};

/** Null: nothing was rubbed in this trial yet. */
export function conditionsForm(conditions: WearConditions | null): ConditionsForm {
  const typed = (value: number | null) => (value === null ? "" : String(value));
  if (conditions === null) return { motion: "strokes", medium: "", grit: "", loadG: "", perMinute: "", by: "hand" };
  const { motion, medium, grit, loadG, perMinute, by } = conditions;
  return { motion, medium, grit: grit ?? "", loadG: typed(loadG), perMinute: typed(perMinute), by: by ?? "unknown" };
}

/** Null: a number that cannot be read. */
export function conditionsOf({ motion, medium, grit, loadG, perMinute, by }: ConditionsForm): WearConditions | null {
  const [load, speed] = [loadG, perMinute].map((typed) => (typed.trim() === "" ? undefined : typedNumber(typed)));
  if (load === null || speed === null) return null;
  return {
    motion,
    medium: medium.trim(),
    grit: grit.trim() === "" ? null : grit.trim(),
    loadG: load ?? null,
    perMinute: speed ?? null,
    by: by === "unknown" ? null : by,
  };
}

/** Names of what is otherwise than at the coupon before. */
export function unlikeBefore(form: ConditionsForm, before: WearConditions | null): (keyof WearConditions)[] {
  const now = conditionsOf(form);
  if (before === null || now === null) return [];
  return (["motion", "medium", "grit", "loadG", "perMinute", "by"] as const).filter(
    (name) => now[name] !== before[name],
  );
}
