/** A field of the record as a person says it: "rustedPercent" is "rusted, %". That a date says when goes without saying. */

const units: Readonly<Record<string, string>> = { percent: "%", mg: "mg", g: "g", um: "µm", c: "°C", ml: "ml" };

export function fieldLabel(path: readonly string[]): string {
  const words = path.filter((name) => name !== "when").flatMap((name) => name.split(/(?=[A-Z])/));
  const said = words.map((word) => word.toLowerCase());
  const unit = said.length > 1 ? units[said.at(-1)!] : undefined;
  return unit === undefined ? said.join(" ") : `${said.slice(0, -1).join(" ")}, ${unit}`;
}
