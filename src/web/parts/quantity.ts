/** Numbers as a person types and reads them, in the units they prefer. Inside the house everything is SI. */
import {
  cFromFahrenheit,
  fahrenheitFromC,
  gFromOunce,
  inchFromMm,
  mmFromInch,
  ounceFromG,
  type Preferences,
} from "../../core/units.ts";

export type QuantityKind = keyof Preferences;

type Unit = { toSi: (value: number) => number; fromSi: (value: number) => number; digits: number };
const same = (value: number) => value;
/** Digits that a workshop's thermometer, calliper and scales have. */
const units: Record<Preferences[QuantityKind], Unit> = {
  "°C": { toSi: same, fromSi: same, digits: 1 },
  "°F": { toSi: cFromFahrenheit, fromSi: fahrenheitFromC, digits: 0 },
  mm: { toSi: same, fromSi: same, digits: 1 },
  in: { toSi: mmFromInch, fromSi: inchFromMm, digits: 3 },
  g: { toSi: same, fromSi: same, digits: 2 },
  oz: { toSi: gFromOunce, fromSi: ounceFromG, digits: 3 },
};

/** "95 °C", "203 °F". */
export function quantityText(kind: QuantityKind, si: number, preferences: Preferences): string {
  return `${typedQuantity(kind, si, preferences)} ${preferences[kind]}`;
}

/** A length by a width in one unit: "150 × 100 mm". */
export function sizeText(sidesMm: readonly number[], preferences: Preferences): string {
  return `${sidesMm.map((side) => typedQuantity("length", side, preferences)).join(" × ")} ${preferences.length}`;
}

/** As it would be typed into a field: the number without its unit. */
export function typedQuantity(kind: QuantityKind, si: number, preferences: Preferences): string {
  const unit = units[preferences[kind]];
  return String(Number(unit.fromSi(si).toFixed(unit.digits)));
}

/** The SI value of what was typed; null when it is no number. */
export function siFromTyped(kind: QuantityKind, typed: string, preferences: Preferences): number | null {
  const value = typedNumber(typed);
  return value === null ? null : units[preferences[kind]].toSi(value);
}

/**
 * The number that was typed, with a decimal point or comma; null when it is none.
 * "1,500" could be one and a half or fifteen hundred: it is not taken.
 */
export function typedNumber(typed: string): number | null {
  const text = typed.trim().replace("−", "-");
  if (/^-?(0|[1-9]\d*),\d{3}$/.test(text) && !/^-?0,/.test(text)) return null;
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text)) return null;
  return Number(text.replace(",", "."));
}
