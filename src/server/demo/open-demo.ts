/** The demonstration shop, made once and then opened on a port of its own: invented data never mix with the user's. */
import { existsSync } from "node:fs";
import { mkdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type RunningServer, startServer } from "../start-server.ts";
import { makeDemoShop } from "./make-demo-shop.ts";

export type DemoOptions = { dir: string; port: number; today: string; progress: (share: number) => void };

export async function openDemo({ dir, port, today, progress }: DemoOptions): Promise<RunningServer> {
  if (!existsSync(join(dir, "shop.db"))) {
    // Made beside its place: a demonstration that was broken off is made again, not opened half-done.
    const making = `${dir}.unfinished`;
    await rm(making, { recursive: true, force: true });
    await makeDemoShop({ dir: making, today, progress });
    await mkdir(dirname(dir), { recursive: true });
    await rename(making, dir);
  }
  return startServer({ shopDir: dir, port });
}
