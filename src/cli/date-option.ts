/** A calendar date on the command line. */
import { InvalidArgumentError } from "commander";

export function dateOption(text: string): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(Date.parse(text)))
    throw new InvalidArgumentError("Expected a date as YYYY-MM-DD.");
  return text;
}
