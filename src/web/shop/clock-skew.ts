/** How far this device's clock is from the shop's. Learnt from answers; kept, since records are made where none come. */
import { shopClockHeader } from "../../api/shop-clock.ts";
import { keep, readKept } from "../keep/kept.ts";
import { midwaySkewMs } from "./midway-skew.ts";

/** A slower answer says too little of when it was given. */
const slowMs = 4000;
/** Beyond this a person would notice it on a record. */
const notableMs = 60_000;

const name = "clock skew";
let skewMs = keptSkew();
const changes = new EventTarget();

function keptSkew(): number | null {
  const kept = readKept(name);
  return typeof kept === "number" && Number.isFinite(kept) ? kept : null;
}

/** What has to be added to this device's clock; null: it never met the shop. */
export const clockSkewMs = (): number | null => skewMs;

/** An answer came to a question that was asked at `askedAt` by this device's clock. */
export function heardClock(answer: Response, askedAt: number) {
  const shopClock = Number(answer.headers.get(shopClockHeader) ?? Number.NaN);
  const heardAt = Date.now();
  if (!Number.isFinite(shopClock) || heardAt < askedAt || (skewMs !== null && heardAt - askedAt > slowMs)) return;
  skewMs = midwaySkewMs({ askedAt, shopClock, heardAt });
  keep(name, skewMs);
  changes.dispatchEvent(new Event("change"));
}

export function onClockHeard(tell: () => void): () => void {
  changes.addEventListener("change", tell);
  return () => changes.removeEventListener("change", tell);
}

/** Minutes by which this device's clock is off, where that is worth saying: above 0, it is behind. */
export const notableSkewMinutes = (): number | null =>
  skewMs === null || Math.abs(skewMs) <= notableMs ? null : Math.round(skewMs / 60_000);
