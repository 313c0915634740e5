import { createServer } from "node:net";
import { describe, expect, onTestFinished, test } from "vitest";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { openShop, ShopInUse } from "../store/open-shop.ts";
import { PortTaken, startServer } from "./start-server.ts";

async function running() {
  const shopDir = await temporaryFolder();
  const server = await startServer({ shopDir, port: 0 });
  onTestFinished(() => server.close());
  return { shopDir, ...server };
}

/** What an open page hears: each event's data as it comes. */
async function listen(url: string) {
  const { body, headers } = await fetch(`${url}api/events`);
  const reader = body!.pipeThrough(new TextDecoderStream()).getReader();
  let text = "";
  return {
    type: headers.get("content-type"),
    sharedWith: headers.get("cross-origin-resource-policy"),
    async next(): Promise<unknown> {
      for (;;) {
        const found = /^data: (.*)\n\n/m.exec(text);
        if (found) {
          text = text.slice(found.index + found[0].length);
          return JSON.parse(found[1]!);
        }
        const { done, value } = await reader.read();
        if (done) return "closed";
        text += value;
      }
    },
  };
}

const choose = (url: string) =>
  fetch(`${url}api/shop/preferences`, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ temp: "°F", length: "in", mass: "oz" }),
  });

describe("a running server", () => {
  test("tells every open page what changed", async () => {
    const { url } = await running();
    const pages = [await listen(url), await listen(url)];
    await choose(url);
    for (const page of pages) {
      expect(page.type).toBe("text/event-stream");
      expect(page.sharedWith).toBe("same-origin");
      expect(await page.next()).toEqual({ changed: "shop" });
    }
  });

  test("closes under open pages at once, and gives the shop back", async () => {
    const { url, close, shopDir } = await running();
    const page = await listen(url);
    await close();
    expect(await page.next()).toBe("closed");
    const shop = await openShop(shopDir);
    await shop.close();
  });

  test("a second one on the same shop is refused, and the first goes on", async () => {
    const { url, shopDir } = await running();
    await expect(startServer({ shopDir, port: 0 })).rejects.toThrow(ShopInUse);
    expect((await choose(url)).status).toBe(200);
  });

  test("a taken port is said in words, and the shop is free again", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    onTestFinished(() => void other.close());
    await new Promise((resolve) => other.once("listening", resolve));
    const address = other.address();
    const port = typeof address === "object" && address ? address.port : 0;
    const shopDir = await temporaryFolder();
    const refused = startServer({ shopDir, port });
    await expect(refused).rejects.toThrow(PortTaken);
    await expect(refused).rejects.toThrow(`Port ${port} is taken by another program`);
    await (await openShop(shopDir)).close();
  });

  test("without a demonstration, none is offered", async () => {
    const { url } = await running();
    expect((await fetch(`${url}api/demo`, { method: "POST" })).status).toBe(404);
  });
});
