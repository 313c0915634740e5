/**
 * What is assumed of scatter where no former trial says better: Weibull shape 2, log SD of strokes 0.25, log10 SD of areas 0.4, one
 * class, a coefficient of variation of 8 %, 1.5 units of L*; between blocks and between batches a log SD of 0.25 and 0.20, and three
 * coupons in a hundred lost. Common practice, all of them; the page says which it used.
 */
export const assumedScatter = {
  shape: 2,
  strokesLogSd: 0.25,
  areaLog10Sd: 0.4,
  classSd: 1,
  coefficientOfVariation: 0.08,
  colourSd: 1.5,
  blockLogSd: 0.25,
  batchLogSd: 0.2,
  lostShare: 0.03,
} as const;
