/** The date of the look: today unless somebody enters an earlier one; what the server refuses stands beside it. */
import { TextField } from "../parts/field.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { inspectText } from "../text/inspect.ts";

/** Refusals that stand beside this field. */
export const lookDatePointers = ["/body/when"];

export function LookDate({ date, onDate, error }: { date: string; onDate: (date: string) => void; error: unknown }) {
  return (
    <TextField
      label={inspectText.date}
      type="date"
      value={date}
      onType={(typed) => {
        if (typed !== "") onDate(typed);
      }}
      error={errorAt(error, "/body/when")}
    />
  );
}
