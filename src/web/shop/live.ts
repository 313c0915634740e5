/** Keeps this page as fresh as the shop: one line to the server, which says what changed. */
import type { QueryClient } from "@tanstack/react-query";
import { useQueryClient } from "@tanstack/react-query";
import { useEffect } from "react";
import { type ShopEvent, shopEvent } from "../../api/shop.ts";
import { tell } from "./ask.ts";
import { shopAnswered, shopWasSilent } from "./contact.ts";

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

const retryMs = 3000;

function listen(client: QueryClient): () => void {
  let source: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wasOpen = false;

  const open = () => {
    source = new EventSource("/api/events");
    source.onopen = () => {
      shopAnswered();
      // What changed while the line was down was not heard.
      if (wasOpen) void client.invalidateQueries();
      wasOpen = true;
    };
    source.onmessage = (message) => {
      const event = shopEvent.safeParse(parsed(message.data));
      if (event.success) for (const queryKey of staleKeys(event.data)) void client.invalidateQueries({ queryKey });
    };
    source.onerror = () => {
      shopWasSilent();
      // The browser reconnects by itself unless the server refused; then it gives up and we try anew.
      if (source?.readyState !== EventSource.CLOSED) return;
      // It does not tell what was answered; a device that was sent away learns it this way.
      void tell("/api/me", {}).catch(() => {});
      clearTimeout(timer);
      timer = setTimeout(open, retryMs);
    };
  };
  open();
  return () => {
    clearTimeout(timer);
    source?.close();
  };
}

function parsed(text: unknown): unknown {
  try {
    return JSON.parse(String(text));
  } catch {
    return null;
  }
}
