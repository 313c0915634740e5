/** Why the shop would not take something, with its fields called as the page calls them and not as the program does. */
import type { Problem } from "../../api/shop.ts";
import { fieldLabel } from "./field-label.ts";

export function refusalWords({ title, detail, errors = [] }: Problem): string {
  if (errors.length === 0) return detail === undefined ? title : refusalInWords(detail);
  return errors.map((one) => refusalInWords(one.detail)).join("; ");
}

/** "body.rustedPercent is 120; expected at most 100": "rusted, % is 120; expected at most 100". */
export function refusalInWords(detail: string): string {
  return detail.replace(argument, (name) => {
    const path = name.split(/[.[\]]+/).filter((part) => part !== "" && part !== "body");
    return path.length === 0 ? name : fieldLabel(path);
  });
}

/** A refused field stands first, before what it is; a sentence of the shop's begins with a capital. */
const argument = /^[a-z][\w.[\]]*(?= is )/;
