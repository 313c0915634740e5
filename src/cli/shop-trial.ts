/** One trial of a shop, by its name or id, for commands that only read. */
import { NoShop, readShop, type ShopStore } from "../store/open-shop.ts";
import type { TrialWithObservations } from "../store/trial-store.ts";
import { InputRefused } from "./exit.ts";

/** Opens the shop, hands the trial over, closes the shop again whatever happens. */
export async function withTrial<T>(
  shopDir: string,
  wanted: string,
  work: (store: ShopStore, trial: TrialWithObservations) => Promise<T>,
): Promise<T> {
  const store = await readShop(shopDir).catch(inWords);
  try {
    const trials = await store.trials.list();
    const named = trials.filter((one) => one.id === wanted || one.name.toLowerCase() === wanted.trim().toLowerCase());
    if (named.length !== 1)
      throw new InputRefused(
        `trial is "${wanted}"; expected the name or id of one of ${trials.length} trials: ${trials.map((one) => `"${one.name}" (${one.id})`).join(", ")}`,
      );
    const trial = await store.trials.find(named[0]!.id);
    if (!trial) throw new InputRefused(`trial "${wanted}" is gone`);
    return await work(store, trial);
  } finally {
    await store.close();
  }
}

function inWords(error: unknown): never {
  if (error instanceof NoShop) throw new InputRefused(error.message);
  throw error;
}
