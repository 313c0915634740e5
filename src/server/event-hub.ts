/** Tells every open page what changed, as server-sent events, so that it asks again. */
import type { ServerResponse } from "node:http";
import type { ShopEvent } from "../api/shop.ts";

export type EventHub = {
  send(event: ShopEvent): void;
  /** Keeps an answer open until its page goes away. */
  add(response: ServerResponse): void;
  close(): void;
};

/** Below the shortest idle time after which something between page and server might hang up. */
const heartbeatMs = 15_000;

export function eventHub(): EventHub {
  const open = new Set<ServerResponse>();
  const writeAll = (text: string) => {
    for (const response of open) response.write(text);
  };
  const heartbeat = setInterval(() => writeAll(": still here\n\n"), heartbeatMs);
  heartbeat.unref();
  return {
    send: (event) => writeAll(`data: ${JSON.stringify(event)}\n\n`),
    add(response) {
      response.writeHead(200, {
        "content-type": "text/event-stream",
        "cache-control": "no-store",
        // Written past the hook that adds these to every other answer.
        "x-content-type-options": "nosniff",
        "cross-origin-resource-policy": "same-origin",
      });
      // A page that lost the connection comes back after a second and asks for everything it shows.
      response.write("retry: 1000\n\n");
      open.add(response);
      response.on("close", () => open.delete(response));
    },
    close() {
      clearInterval(heartbeat);
      for (const response of open) response.end();
    },
  };
}
