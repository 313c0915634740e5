/** Threads that render the demonstration's coupons while others measure them. */
import { fileURLToPath } from "node:url";
import { Piscina } from "piscina";
import { threads } from "../measure-pool.ts";
import type { RenderedPhoto, RenderTask } from "./render-worker.ts";

export type Renderer = { photosOf(task: RenderTask): Promise<RenderedPhoto[]>; close(): Promise<void> };

export function renderPool(): Renderer {
  const pool = new Piscina<RenderTask, RenderedPhoto[]>({
    filename: fileURLToPath(new URL("./render-worker.js", import.meta.url)),
    minThreads: 0,
    maxThreads: threads,
    // Without it a thread ends with its coupon, and the next one has to warm up anew.
    idleTimeout: 30_000,
  });
  return { photosOf: (task) => pool.run(task), close: () => pool.close({ force: true }) };
}
