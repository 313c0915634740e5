/** Coupons of one trial carry their number the same way round; kept on this device. */
import { keep, readKept } from "../keep/kept.ts";
import type { Reads } from "./inspection-state.ts";

const keyOf = (trial: string) => `number reads ${trial}`;

export const readsOfTrial = (trial: string): Reads => (readKept(keyOf(trial)) === "across" ? "across" : "along");
export const keepReads = (trial: string, reads: Reads) => keep(keyOf(trial), reads);
