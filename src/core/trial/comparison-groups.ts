/** Who is compared with whom: the control, the witnesses, the family. */
import { InputError } from "../input-error.ts";
import { plainName, sameName } from "./plain-table.ts";
import type { Question } from "./question.ts";

export type ComparisonGroups = Pick<Question, "control" | "witnesses" | "family" | "treatments">;

/** `appearing`: treatments in the order of the table. Names match without regard to case and outer spaces. */
export function comparisonGroups(
  appearing: readonly string[],
  ask: { control: string | null; witness: string | null; family: "control" | "pairs" | null },
): ComparisonGroups {
  const named = (argument: string, name: string) => {
    const found = appearing.find((treatment) => sameName(treatment, name));
    if (found === undefined) throw new InputError(argument, name, `one of ${quoted(appearing)}`);
    return found;
  };
  const control =
    ask.control !== null
      ? named("control", ask.control)
      : (appearing.find((treatment) => plainName(treatment) === "control") ?? null);
  const witnesses =
    ask.witness !== null
      ? [named("witness", ask.witness)]
      : appearing.filter((treatment) => treatment !== control && ["witness", "bare"].includes(plainName(treatment)));
  if (control !== null && witnesses.includes(control))
    throw new InputError("witness", ask.witness, "a treatment that is not the control");
  const treatments = appearing.filter((treatment) => !witnesses.includes(treatment));
  if (treatments.length < 2)
    throw new InputError("treatment", treatments, "two treatments or more to compare, witnesses left out");
  const family = ask.family ?? (control === null ? "pairs" : "control");
  if (family === "control" && control === null)
    throw new InputError("family", family, `"pairs", or a control (one of ${quoted(treatments)})`, "control");
  return { control, witnesses, family, treatments };
}

const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(", ");
