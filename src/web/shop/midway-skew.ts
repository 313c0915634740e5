/** The answer was given about midway between asking and hearing. Milliseconds to add to the device's clock. */
export const midwaySkewMs = ({
  askedAt,
  shopClock,
  heardAt,
}: {
  askedAt: number;
  shopClock: number;
  heardAt: number;
}) => Math.round(shopClock - (askedAt + heardAt) / 2);
