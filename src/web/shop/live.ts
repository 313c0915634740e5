/** Keeps this page as fresh as the shop: one line to the server, which says what changed. */
import type { QueryClient } from "@tanstack/react-query";
import { useQueryClient } from "@tanstack/react-query";
import { useEffect } from "react";
import { livePulse, type ShopEvent, shopEvent } from "../../api/shop.ts";
import { tell } from "./ask.ts";
import { shopAnswered, shopWasSilent } from "./contact.ts";
import { reconnectDelayMs } from "./reconnect.ts";

/** Which answers have to be asked for again. */
export function staleKeys(event: ShopEvent): string[][] {
  if (event.changed === "trial") return [["trial", event.id], ["trials"], ["today"], ["sites"]];
  if (event.changed === "job") return [["job", event.id]];
  if (event.changed === "sharing") return [["sharing"], ["devices"], ["me"]];
  return [["shop"], ["eye tests"], ["trials"], ["today"], ["readings"], ["sites"]];
}

export function useLiveShop() {
  const client = useQueryClient();
  useEffect(() => listen(client), [client]);
}

/** The browser's own way back waits one and the same second for ever; and a line that died without a word it never notices. */
function listen(client: QueryClient): () => void {
  let line: EventSource | null = null;
  let [again, silence]: [Timer, Timer] = [undefined, undefined];
  let failures = 0;
  let wasOpen = false;

  const open = () => {
    clearTimeout(again);
    line = new EventSource("/api/events");
    line.onopen = () => {
      failures = 0;
      heard();
      shopAnswered();
      // What changed while the line was down was not heard.
      if (wasOpen) void client.invalidateQueries();
      wasOpen = true;
    };
    line.onmessage = (message) => {
      heard();
      const event = shopEvent.safeParse(parsed(message.data));
      if (event.success) for (const queryKey of staleKeys(event.data)) void client.invalidateQueries({ queryKey });
    };
    line.addEventListener(livePulse.event, heard);
    line.onerror = lost;
  };
  const heard = () => {
    clearTimeout(silence);
    silence = setTimeout(lost, 3 * livePulse.everyMs);
  };
  const lost = () => {
    close();
    shopWasSilent();
    failures += 1;
    again = setTimeout(open, reconnectDelayMs(failures, Math.random()));
    // The line does not tell what was answered; a device that was sent away learns it this way.
    void tell("/api/me", {}).catch(() => {});
  };
  const close = () => {
    for (const timer of [again, silence]) clearTimeout(timer);
    line?.close();
    line = null;
  };
  /** The network is back, or somebody looks again: nobody should wait for the next turn. */
  const atOnce = () => {
    if (line === null && document.visibilityState === "visible") open();
  };
  open();
  addEventListener("online", atOnce);
  document.addEventListener("visibilitychange", atOnce);
  return () => {
    removeEventListener("online", atOnce);
    document.removeEventListener("visibilitychange", atOnce);
    close();
  };
}

type Timer = ReturnType<typeof setTimeout> | undefined;

function parsed(text: unknown): unknown {
  try {
    return JSON.parse(String(text));
  } catch {
    return null;
  }
}
