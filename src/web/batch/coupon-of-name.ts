/** Which coupon a photograph shows, by the name of its file; null: the name does not say, and somebody is asked. */

/** Names that cameras give by counting: their number is no coupon's. */
const countedByCamera = /^(img|image|dsc[nf]?|pxl|mvimg|cimg|photo|picture|scan|p|wa)[-_ ]?(e?\d+)$/i;
const dates = /(19|20)\d{2}[-_.]?\d{2}[-_.]?\d{2}([-_T ]?\d{2}[-_.:]?\d{2}([-_.:]?\d{2})?)?/g;

export function couponOfName(fileName: string, coupons: readonly string[]): string | null {
  const name = fileName
    .replace(/\.[a-z0-9]+$/i, "")
    .replace(dates, " ")
    .trim();
  if (countedByCamera.test(name)) return null;
  const whole = couponLike(name.replace(/^0+(?=\d)/, ""), coupons) ?? couponLike(name, coupons);
  if (whole) return whole;
  const parts = name.split(/[^\p{L}\p{N}]+/u).filter((part) => part !== "");
  const named = new Set(parts.flatMap((part) => couponLike(part, coupons) ?? []));
  // "12 of 24" may mean either.
  return named.size === 1 ? [...named][0]! : null;
}

const couponLike = (text: string, coupons: readonly string[]): string | null =>
  coupons.find((coupon) => coupon.toLowerCase() === text.toLowerCase()) ?? null;
