/** What the server refused and no field showed, or that it did not answer. */
import { otherErrors } from "../shop/field-errors.ts";

export function Trouble({ error, shown = [] }: { error: unknown; shown?: readonly string[] }) {
  const said = otherErrors(error, shown);
  if (said.length === 0) return null;
  return (
    <div role="alert" className="trouble">
      {said.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </div>
  );
}
