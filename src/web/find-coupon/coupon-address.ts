/** Which trial an address such as /c/12 or /c/3c2f7c0e/12 means: coupon numbers begin at 1 in every trial. */
import type { TrialSummary } from "../../api/shop.ts";

/** The trials that an address can mean: by the first digits of their id, or, without any, every one that is still open. */
export function trialsMeant(trials: readonly TrialSummary[], digits: string | null): TrialSummary[] {
  return digits === null ? trials.filter((one) => !one.unblinded) : trials.filter((one) => one.id.startsWith(digits));
}
