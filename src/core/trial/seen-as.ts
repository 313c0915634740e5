/** What can be made of finish colours, and the states of a coupon in which they are read: wet steel is darker than dry. */

export const colourStates = ["dry and wiped", "oiled", "wet"] as const;
export type ColourState = (typeof colourStates)[number];

export const colourMeasures = ["lightness", "unevenness", "change"] as const;
export type ColourMeasure = (typeof colourMeasures)[number];

/** Only readings in that state answer it. */
export type SeenAs = { of: ColourMeasure; state: ColourState };

/** CIELAB lightness, its standard deviation over the face, and CIEDE2000 from the first date to the last. */
export const colourUnits: Record<ColourMeasure, string> = { lightness: "L*", unevenness: "L*", change: "ΔE00" };
