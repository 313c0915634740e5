/** When it happened: a date, or a day number where a trial made of a table only counts days. */
import type { When } from "../../core/trial/trial-record.ts";
import { whenText } from "../text/parts.ts";
import { NumberField, TextField } from "./field.tsx";
import { typedNumber } from "./quantity.ts";

export function WhenField({
  label,
  countsDays,
  value,
  onType,
  error,
}: {
  label: string;
  countsDays: boolean;
  value: string;
  onType: (value: string) => void;
  error: string | null;
}) {
  if (countsDays)
    return <NumberField label={whenText.day(label)} unit={whenText.days} value={value} onType={onType} error={error} />;
  return <TextField label={label} type="date" value={value} onType={onType} error={error} />;
}

/** What was typed, or null while it is no date or day. */
export function whenTyped(typed: string, countsDays: boolean): When | null {
  if (!countsDays) return /^\d{4}-\d{2}-\d{2}$/.test(typed) ? { date: typed } : null;
  const day = typedNumber(typed);
  return day === null ? null : { day };
}

export const typedWhen = (when: When): string => ("date" in when ? when.date : String(when.day));
