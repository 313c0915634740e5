/** Which end of a scale of classes is the best. The limits of the classes stand with their own methods in the rating room. */

/** Scales of rust, for ratings and grades. */
export const rustScales = ["iso10289", "d610", "iso4628"] as const;
export type RustScale = (typeof rustScales)[number];

/** "iso2409" is the scale of a tape test whose best class is 0. */
export const scaleNames = [...rustScales, "iso2409"] as const;
export type ScaleName = (typeof scaleNames)[number];

export type ScaleEnds = { best: number; worst: number };

export const scaleEnds: Readonly<Record<ScaleName, ScaleEnds>> = {
  iso10289: { best: 10, worst: 0 },
  d610: { best: 10, worst: 0 },
  iso4628: { best: 0, worst: 5 },
  iso2409: { best: 0, worst: 5 },
};

/** ASTM D3359 tape classes without their letter. */
export const tapeScaleEnds: ScaleEnds = { best: 5, worst: 0 };

export const scaleTitles: Readonly<Record<ScaleName, string>> = {
  iso10289: "the ISO 10289 table",
  d610: "ASTM D610",
  iso4628: "ISO 4628-3",
  iso2409: "ISO 2409",
};

export const isWorse = (a: number, b: number, { best, worst }: ScaleEnds): boolean => (best > worst ? a < b : a > b);

/** A whole class between the ends of its scale. */
export const isClassOf = (value: number, { best, worst }: ScaleEnds): boolean =>
  Number.isInteger(value) && value >= Math.min(best, worst) && value <= Math.max(best, worst);
