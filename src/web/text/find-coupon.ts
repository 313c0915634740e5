/** Words on the way from a coupon's number to its inspection. */
export const findCouponText = {
  label: "Number of the coupon in hand",
  go: "Look at it",
  none: (coupon: string) => `No open trial has a coupon ${coupon}.`,
  several: (coupon: string) => `Coupon ${coupon} hangs in more than one trial. Which is it?`,
  of: (trial: string) => `The one of ${trial}`,
};
