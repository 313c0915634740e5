import { createServer, get, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { describe, expect, onTestFinished, test } from "vitest";
import { eventHub, linesOfOneDevice } from "./event-hub.ts";

async function hubAt() {
  const hub = eventHub();
  const server = createServer((request, response) => {
    if (!hub.add(response, request.headers["x-device"]?.toString() ?? null)) response.writeHead(429).end();
  }).listen(0, "127.0.0.1");
  onTestFinished(() => {
    hub.close();
    server.closeAllConnections();
    server.close();
  });
  await new Promise((resolve) => server.once("listening", resolve));
  const { port } = server.address() as AddressInfo;
  const listen = (device?: string) =>
    new Promise<IncomingMessage>((resolve, reject) => {
      const headers = device === undefined ? {} : { "x-device": device };
      get({ host: "127.0.0.1", port, headers, agent: false }, resolve).on("error", reject);
    });
  return { hub, listen };
}

describe("the line on which pages hear of changes", () => {
  test("one device holds only so many; a closed one makes room, and others have their own", async () => {
    const { listen } = await hubAt();
    const lines = await Promise.all(Array.from({ length: linesOfOneDevice }, () => listen("flood")));
    expect(lines.map(({ statusCode }) => statusCode)).toEqual(lines.map(() => 200));
    expect((await listen("flood")).statusCode).toBe(429);
    expect((await listen("calm")).statusCode).toBe(200);
    expect((await listen()).statusCode).toBe(200);
    lines[0]!.destroy();
    await expect.poll(async () => (await listen("flood")).statusCode).toBe(200);
  });

  test("one that is never read is cut and fills no memory; one that is read hears everything", async () => {
    const { hub, listen } = await hubAt();
    const [deaf, hears] = [await listen("deaf"), await listen("hears")];
    let heard = 0;
    hears.on("data", (part: Buffer) => {
      heard += part.toString().split("data:").length - 1;
    });
    const cut = new Promise((resolve) => {
      deaf.once("error", () => resolve("cut"));
      deaf.once("close", () => resolve("cut"));
    });
    let sent = 0;
    // Read a little at a time, so that the one that listens keeps up.
    for (let turn = 0; turn < 400; turn++) {
      for (let each = 0; each < 400; each++, sent++) hub.send({ changed: "shop" });
      await new Promise((resolve) => setImmediate(resolve));
    }
    deaf.resume();
    expect(await cut).toBe("cut");
    await expect.poll(() => heard).toBe(sent);
  });
});
