/** What the page asks of the shop, once for all screens. */
import { useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import { useCallback } from "react";
import * as z from "zod/mini";
import type { NewObservation } from "../../api/observation.ts";
import {
  dueToday,
  type Reading,
  reading,
  readingsAdded,
  shop,
  siteSummary,
  type TrialDocument,
  trialDocument,
  trialSummary,
} from "../../api/shop.ts";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { waitingText } from "../text/waiting.ts";
import { record, recordMessage, type Written } from "../waiting/send-waiting.ts";
import { useWaiting } from "../waiting/use-waiting.ts";
import { withWaiting } from "../waiting/with-waiting.ts";
import { ask, json, NoAnswer } from "./ask.ts";
import { newId } from "./new-id.ts";

export const useShop = () => useQuery({ queryKey: ["shop"], queryFn: () => ask(shop, "/api/shop") });

/** Until somebody chose, SI. */
export const usePreferences = (): Preferences => useShop().data?.preferences ?? siPreferences;

export const useTrials = () =>
  useQuery({ queryKey: ["trials"], queryFn: () => ask(z.array(trialSummary), "/api/trials") });

export const useToday = () => useQuery({ queryKey: ["today"], queryFn: () => ask(dueToday, "/api/today") });

export const useSites = () => useQuery({ queryKey: ["sites"], queryFn: () => ask(z.array(siteSummary), "/api/sites") });

/** With what was written down on this device and waits to be sent: it is as true as the rest. */
export function useTrial(id: string) {
  const waiting = useWaiting();
  const select = useCallback((trial: TrialDocument) => withWaiting(trial, waiting), [waiting]);
  return useQuery({ queryKey: ["trial", id], queryFn: () => ask(trialDocument, `/api/trials/${id}`), select });
}

export const useReadings = (site: string, { from, to }: { from: string; to: string }) =>
  useQuery({
    queryKey: ["readings", site, from, to],
    queryFn: () => ask(z.array(reading), `${readingsPath(site)}?${new URLSearchParams({ from, to })}`),
  });

const readingsPath = (site: string) => `/api/sites/${encodeURIComponent(site)}/readings`;

/** Readings of one request: well below what the server takes at once. */
const readingsAtOnce = 20_000;

/** Keeps a log as the readings of a site; those of a moment that is known are dropped, so it may be sent again. What nobody took waits here. */
export function useKeepReadings(site: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (readings: Omit<Reading, "site">[]) => {
      let added = 0;
      let waiting = 0;
      for (let at = 0; at < readings.length; at += readingsAtOnce) {
        const part = readings.slice(at, at + readingsAtOnce);
        const answer = await ask(readingsAdded, readingsPath(site), json("POST", part)).catch(orSilence);
        if (answer) added += answer.added;
        else {
          waiting += part.length;
          const words = waitingText.readings(part.length, site);
          await recordMessage({ id: newId(), path: readingsPath(site), body: part, words });
        }
      }
      return { added, repeated: readings.length - added - waiting, waiting };
    },
    onSettled: () =>
      Promise.all([
        client.invalidateQueries({ queryKey: ["readings"] }),
        client.invalidateQueries({ queryKey: ["sites"] }),
      ]),
  });
}

function orSilence(error: unknown): null {
  if (error instanceof NoAnswer) return null;
  throw error;
}

/** Writes observations down, one after another; each is one act that a repeat does not double. Silence makes them wait here. */
export function useObserve(trialId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (observations: NewObservation[]) => {
      let written: Written = "stored";
      for (const one of observations) if ((await record(trialId, one)) === "waiting") written = "waiting";
      return written;
    },
    // In silence there is nothing new to ask for.
    onSettled: (written) =>
      written !== "waiting" &&
      Promise.all([
        client.invalidateQueries({ queryKey: ["trial", trialId] }),
        client.invalidateQueries({ queryKey: ["trials"] }),
        client.invalidateQueries({ queryKey: ["today"] }),
        client.invalidateQueries({ queryKey: ["sites"] }),
      ]),
  });
}
