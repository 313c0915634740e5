/** Tells every open page what changed, as server-sent events, so that it asks again. */
import type { ServerResponse } from "node:http";
import { livePulse, type ShopEvent } from "../api/shop.ts";

export type EventHub = {
  send(event: ShopEvent): void;
  /** Keeps an answer open until its page goes away. False: this device has as many open as it may. */
  add(response: ServerResponse, device: string | null): boolean;
  close(): void;
};

/** A browser opens six connections to a place, and some have two browsers. */
export const linesOfOneDevice = 12;
/** What a device has not read by then it never will; the page asks for everything when it comes back. */
const unreadBytes = 65_536;

export function eventHub(): EventHub {
  const open = new Map<ServerResponse, string | null>();
  const writeAll = (text: string) => {
    for (const response of open.keys()) {
      response.write(text);
      if (response.writableLength > unreadBytes) response.destroy();
    }
  };
  const pulse = setInterval(() => writeAll(`event: ${livePulse.event}\ndata: 1\n\n`), livePulse.everyMs);
  pulse.unref();
  return {
    send: (event) => writeAll(`data: ${JSON.stringify(event)}\n\n`),
    add(response, device) {
      const others = [...open.values()].filter((one) => one === device).length;
      if (device !== null && others >= linesOfOneDevice) return false;
      response.writeHead(200, {
        "content-type": "text/event-stream",
        "cache-control": "no-store",
        // Written past the hook that adds these to every other answer.
        "x-content-type-options": "nosniff",
        "cross-origin-resource-policy": "same-origin",
      });
      // For whoever leaves coming back to the browser; the page sees to it itself.
      response.write("retry: 3000\n\n");
      open.set(response, device);
      response.on("close", () => open.delete(response));
      return true;
    },
    close() {
      clearInterval(pulse);
      for (const response of open.keys()) response.end();
    },
  };
}
