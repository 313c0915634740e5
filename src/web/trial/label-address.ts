/** What the code on a coupon's label opens: that coupon's inspection, at an address that a phone can reach. */

/** Where this page comes from, unless only this machine can reach it there; and where the shop is shared. Each once, the likeliest first. */
export function labelBases(origin: string, shared: readonly string[]): string[] {
  const isLoopback = ["localhost", "127.0.0.1", "[::1]"].includes(new URL(origin).hostname);
  return [...new Set([...(isLoopback ? [] : [origin]), ...shared.map((address) => new URL(address).origin)])];
}

/** Numbers begin at 1 in every trial: its first digits say which one is meant. */
export function labelAddress(base: string, trialId: string, coupon: string): string {
  return `${base}/c/${trialId.slice(0, 8)}/${encodeURIComponent(coupon)}`;
}
