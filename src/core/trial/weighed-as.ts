/** What can be made of weighings, and in which states a coupon is weighed for it. */

export const weighedStates = ["bare", "coated", "stripped", "oiled", "wiped", "drained"] as const;
export type WeighedState = (typeof weighedStates)[number];

export const weighedAs = ["gain", "stripping", "oil taken up", "oil after wiping", "oil after days"] as const;
export type WeighedAs = (typeof weighedAs)[number];

/** In the order in which they are weighed. */
export const statesOf: Record<WeighedAs, readonly WeighedState[]> = {
  gain: ["bare", "coated"],
  stripping: ["bare", "coated", "stripped"],
  "oil taken up": ["coated", "oiled"],
  "oil after wiping": ["coated", "wiped"],
  "oil after days": ["coated", "drained"],
};

export const weighedUnit = "g/m²";
