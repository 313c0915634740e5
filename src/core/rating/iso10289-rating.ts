/** Protection rating of metallic and other inorganic coatings by defective area, ISO 10289. */
import { InputError, requirePercent } from "../input-error.ts";

/**
 * ISO 10289, Table 1. An upper limit belongs to its rating. The only copy of these numbers.
 * Ratings 10 to 6 were checked against the text of the standard, 5 to 1 against a test house's copy; 0 is from memory.
 */
export const iso10289Limits = [
  { rating: 10, upToPercent: 0 },
  { rating: 9, upToPercent: 0.1 },
  { rating: 8, upToPercent: 0.25 },
  { rating: 7, upToPercent: 0.5 },
  { rating: 6, upToPercent: 1 },
  { rating: 5, upToPercent: 2.5 },
  { rating: 4, upToPercent: 5 },
  { rating: 3, upToPercent: 10 },
  { rating: 2, upToPercent: 25 },
  { rating: 1, upToPercent: 50 },
  { rating: 0, upToPercent: 100 },
] as const;
export type Iso10289Rating = (typeof iso10289Limits)[number]["rating"];

/**
 * Protection rating Rp (or appearance rating RA) by the table: the area as measured, the first limit not below it.
 * The table and the formula disagree in places (0.12 % is 8 here, 8.76 there); the table gives the whole number.
 */
export function protectionRating(areaPercent: number): Iso10289Rating {
  requirePercent("areaPercent", areaPercent);
  return iso10289Limits.find((row) => areaPercent <= row.upToPercent)!.rating;
}

/** ISO 10289: below this area the formula would pass 10. */
const formulaFromPercent = 100 / 10 ** (10 / 3);

/**
 * Protection rating on a continuous scale, for comparing and plotting; not the rating of the table.
 *
 * Method   rating.protectionRatingContinuous
 * Formula  Rp = 3 (2 - log10 A), unrounded; 10 at or below A = 0.046416 %
 * Units    areaPercent: % of the assessed area with protection defects, 0 to 100
 * Source   ISO 10289, formula of the protection rating
 * Status   published
 * Holds    on metallic and other inorganic coatings; label it as the formula's value, since it and the table disagree
 * Refuses  a percentage outside 0 to 100
 */
export function protectionRatingContinuous(areaPercent: number): number {
  requirePercent("areaPercent", areaPercent);
  return areaPercent <= formulaFromPercent ? 10 : 3 * (2 - Math.log10(areaPercent));
}

/**
 * The defective area that the formula gives a rating for.
 *
 * Method   rating.areaPercentFromProtectionRating
 * Formula  A = 10^(2 - Rp / 3)
 * Units    rating 0 to 10, fractions allowed; result in % of the assessed area
 * Source   ISO 10289, formula of the protection rating, inverted
 * Status   published
 * Holds    as a typical area only: a whole rating stands for a range of areas, and 10 also for none at all
 * Refuses  a rating outside 0 to 10
 */
export function areaPercentFromProtectionRating(rating: number): number {
  if (typeof rating !== "number" || !(rating >= 0 && rating <= 10))
    throw new InputError("rating", rating, "a rating from 0 to 10");
  return 10 ** (2 - rating / 3);
}
