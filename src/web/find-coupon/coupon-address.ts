/** Where a coupon's label leads: short, so that its code stays coarse enough to be read from dirty paper. */
import type { TrialSummary } from "../../api/shop.ts";

/** The first digits of the trial's id: coupon numbers begin at 1 in every trial. */
const trialDigits = 8;

export const couponPath = (trial: string, coupon: string) =>
  `/c/${trial.slice(0, trialDigits)}/${encodeURIComponent(coupon)}`;

/** The trials that an address can mean: by their first digits, or, without any, every one that is still open. */
export function trialsMeant(trials: readonly TrialSummary[], digits: string | null): TrialSummary[] {
  return digits === null ? trials.filter((one) => !one.unblinded) : trials.filter((one) => one.id.startsWith(digits));
}
