/** How an item that waits is called on the page: what it is, of which coupons. */
import { listed } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import type { WaitingItem } from "./waiting-item.ts";

export function waitingWords(item: WaitingItem): string {
  if (item.kind === "photo" && item.named) return item.named.words;
  if (item.kind === "photo") {
    const inspection = inspectionNamed(item.inspection);
    return waitingText.photo(inspection ? `coupon ${inspection.coupon}, ${inspection.face}` : item.inspection);
  }
  if (item.kind === "message") return item.words;
  if (item.kind === "correction") return waitingText.correction(item.coupon);
  if (item.kind === "reading") return waitingText.reading(item.reading.of, item.reading.body.coupon);
  const { body } = item.observation;
  const kind = `${body.kind.charAt(0).toUpperCase()}${body.kind.slice(1)}`;
  const coupons = "coupon" in body ? [body.coupon] : "coupons" in body ? body.coupons : [];
  return coupons.length === 0 ? kind : `${kind}, ${coupons.length === 1 ? "coupon" : "coupons"} ${listed(coupons)}`;
}

/** The parts of an inspection's name on this device: trial, coupon (which may hold spaces), face. */
export function inspectionNamed(name: string): { trial: string; coupon: string; face: string } | null {
  const [, trial, coupon, face] = /^([0-9a-f-]{36}) (.+) (front|back)$/.exec(name) ?? [];
  return trial && coupon && face ? { trial, coupon, face } : null;
}
