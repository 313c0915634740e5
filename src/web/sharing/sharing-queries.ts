/** What the pages about sharing ask of the shop. */
import { useQuery } from "@tanstack/react-query";
import * as z from "zod/mini";
import { device, me, sharing } from "../../api/sharing.ts";
import { ask } from "../shop/ask.ts";

export const useMe = () => useQuery({ queryKey: ["me"], queryFn: () => ask(me, "/api/me") });

/** While a code is open it may run out without a word. */
const whileCodeMs = 5000;

export const useSharing = () =>
  useQuery({
    queryKey: ["sharing"],
    queryFn: () => ask(sharing, "/api/sharing"),
    refetchInterval: ({ state }) => (state.data?.pairing ? whileCodeMs : false),
  });

/** "Last seen" goes on without anything being told of it. */
const seenMs = 30_000;

export const useDevices = () =>
  useQuery({ queryKey: ["devices"], queryFn: () => ask(z.array(device), "/api/devices"), refetchInterval: seenMs });
