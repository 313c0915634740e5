/** A shop for a command that writes into it: only while nobody else has it open. */
import { openShop, ShopInUse, type ShopStore } from "../store/open-shop.ts";
import { InputRefused } from "./exit.ts";

export function openToWrite(shopDir: string): Promise<ShopStore> {
  return openShop(shopDir).catch((error: unknown) => {
    throw error instanceof ShopInUse ? new InputRefused(error.message) : error;
  });
}
