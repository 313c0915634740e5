/** The date of the look: today unless somebody enters an earlier one; what the server refuses stands beside it. */
import { TextField } from "../parts/field.tsx";
import { inspectText } from "../text/inspect.ts";

export function LookDate(props: { date: string; onDate: (date: string) => void; error: string | null }) {
  return (
    <TextField
      label={inspectText.date}
      type="date"
      value={props.date}
      onType={(typed) => {
        if (typed !== "") props.onDate(typed);
      }}
      error={props.error}
    />
  );
}
