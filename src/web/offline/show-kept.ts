/** What the first screen showed last stands there at once, while the shop is asked. */
import type { QueryClient } from "@tanstack/react-query";
import * as z from "zod/mini";
import { me } from "../../api/sharing.ts";
import { dueToday, siteSummary, trialSummary } from "../../api/shop.ts";
import { keptAtHeader } from "./kept-answer.ts";
import { readsName } from "./kept-reads.ts";

const first = [
  { queryKey: ["trials"], path: "/api/trials", schema: z.array(trialSummary) },
  { queryKey: ["today"], path: "/api/today", schema: dueToday },
  { queryKey: ["sites"], path: "/api/sites", schema: z.array(siteSummary) },
  { queryKey: ["me"], path: "/api/me", schema: me },
];

export function showKept(client: QueryClient) {
  if (!("caches" in window) || location.pathname !== "/") return;
  for (const one of first) void show(client, one).catch(() => {});
}

async function show(client: QueryClient, { queryKey, path, schema }: (typeof first)[number]) {
  const kept = await caches.match(path, { cacheName: readsName });
  const keptAt = kept?.headers.get(keptAtHeader);
  if (!kept || !keptAt) return;
  const answer = schema.safeParse(await kept.json());
  // The shop's own answer may have been faster; and a kept one is never so new that the shop need not be asked.
  if (answer.success && client.getQueryData(queryKey) === undefined)
    client.setQueryData(queryKey, answer.data, { updatedAt: 0 });
}
