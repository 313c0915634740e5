/** Under which number devices know this machine. When it gets another one, they no longer find it: the owner must hear of it. */
import type { SettingStore } from "../../store/setting-store.ts";

export type KnownAddress = {
  /** Compares with what was known; the first, and any while nobody is let in, becomes the known one. */
  look(addresses: readonly string[]): Promise<void>;
  /** From now on it is the known one. */
  learn(address: string): Promise<void>;
  /** The known one, if the machine has it no more; null: it has, or it has none at all just now. */
  movedFrom(addresses: readonly string[]): string | null;
};

type Kept = Pick<SettingStore, "knownAddress" | "knowAddress">;

export function knownAddress(settings: Kept, hasDevices: () => Promise<boolean>, now: () => Date): KnownAddress {
  let known: string | null = null;
  const learn = async (address: string) => {
    if (address === known) return;
    known = address;
    await settings.knowAddress(address, now().toISOString());
  };
  return {
    learn,
    async look([first]) {
      known ??= await settings.knownAddress();
      if (first !== undefined && (known === null || !(await hasDevices()))) await learn(first);
    },
    movedFrom: (addresses) => (known !== null && addresses.length > 0 && !addresses.includes(known) ? known : null),
  };
}
