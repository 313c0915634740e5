import { connect, createServer } from "node:net";
import { describe, expect, onTestFinished, test } from "vitest";
import { sharedShop } from "../../../tests/network-side.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import { startServer } from "../start-server.ts";
import { connectionsOfOneAddress, networkListener } from "./network-listener.ts";
import { addressesAt, isLocalAddress, localName } from "./own-addresses.ts";

const choose = (url: string, choice: object) =>
  fetch(`${url}api/sharing`, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(choice),
  }).then((answer) => answer.json());

describe("sharing", () => {
  test("is off in a new shop; chosen on the page it is on, also after a restart, until it is switched off", async () => {
    const shopDir = await temporaryFolder();
    const share = { host: "127.0.0.1" };
    const first = await startServer({ shopDir, port: 0, share });
    expect(first.sharing.state()).toMatchObject({ on: false, addresses: [] });
    const { addresses } = await choose(first.url, { on: true, way: "plain" });
    expect((await fetch(`${addresses[0]}api/shop`)).status).toBe(401);
    await first.close();
    await expect(fetch(addresses[0])).rejects.toThrow();
    const second = await startServer({ shopDir, port: 0, share });
    expect(second.sharing.state()).toMatchObject({ on: true, way: "plain" });
    const [again] = second.sharing.state().addresses;
    await choose(second.url, { on: false, way: "plain" });
    await expect(fetch(again!)).rejects.toThrow();
    await second.close();
    const third = await startServer({ shopDir, port: 0, share });
    expect(third.sharing.state().on).toBe(false);
    await third.close();
  });

  test("asked for or forbidden for one run, what was chosen on the page stays", async () => {
    const shopDir = await temporaryFolder();
    const once = await startServer({ shopDir, port: 0, share: { host: "127.0.0.1", start: "plain" } });
    expect(once.sharing.state().on).toBe(true);
    await once.close();
    const next = await startServer({ shopDir, port: 0, share: { host: "127.0.0.1" } });
    expect(next.sharing.state().on).toBe(false);
    await choose(next.url, { on: true, way: "plain" });
    await next.close();
    const not = await startServer({ shopDir, port: 0, share: { host: "127.0.0.1", start: "not" } });
    expect(not.sharing.state().on).toBe(false);
    await not.close();
  });

  test("on a taken port says so in words, and the shop goes on", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    onTestFinished(() => void other.close());
    await new Promise((resolve) => other.once("listening", resolve));
    const { port } = other.address() as { port: number };
    const server = await startServer({ shopDir: await temporaryFolder(), port: 0, share: { host: "127.0.0.1", port } });
    onTestFinished(() => server.close());
    const said = await choose(server.url, { on: true, way: "plain" });
    expect(said).toMatchObject({
      on: false,
      failure: `Port ${port} is taken by another program. Start with --share-port and another number.`,
    });
    expect((await fetch(`${server.url}api/shop`)).status).toBe(200);
  });

  test("without an address of a local network says so, and takes one up when it comes", async () => {
    let addresses: string[] = [];
    const place = { host: "127.0.0.1", addressesAt: () => addresses };
    const { server } = await sharedShop(place);
    expect(server.sharing.state()).toMatchObject({ on: true, failure: expect.stringMatching(/no address of a local/) });
    addresses = ["192.168.1.7"];
    await server.sharing.look();
    expect(server.sharing.state().failure).toBeNull();
    expect(server.sharing.names()).toContain("192.168.1.7");
  });

  test("a machine that gets another address says so to the owner, also after a restart, until it is known", async () => {
    let addresses = ["192.168.1.7", "127.0.0.1"];
    const share = { host: "127.0.0.1", addressesAt: () => addresses };
    const { server, pair, here, shopDir } = await sharedShop(share);
    addresses = ["192.168.1.8", "127.0.0.1"];
    await server.sharing.look();
    expect(server.sharing.state().movedFrom, "nobody knew the old one").toBeNull();
    const { as } = await pair("owner");
    addresses = ["192.168.1.9", "127.0.0.1"];
    await server.sharing.look();
    expect(server.sharing.state().movedFrom).toBe("192.168.1.8");
    expect(server.sharing.state().addresses[0]).toMatch(/^http:\/\/192\.168\.1\.9:/);
    for (const me of [await here("/api/me"), await as("/api/me")]) expect(JSON.parse(me.text).moved).toBe(true);
    await server.close();
    const again = await startServer({ shopDir, port: 0, share: { ...share, start: "plain" } });
    onTestFinished(() => again.close());
    expect(again.sharing.state().movedFrom).toBe("192.168.1.8");
    addresses = ["192.168.1.8", "127.0.0.1"];
    await again.sharing.look();
    expect(again.sharing.state().movedFrom, "it has its old number back").toBeNull();
    addresses = ["192.168.1.9", "127.0.0.1"];
    await again.sharing.look();
    const told = await fetch(`${again.url}api/sharing/known-address`, { method: "POST" });
    expect(await told.json()).toMatchObject({ movedFrom: null });
    await again.sharing.look();
    expect(again.sharing.state().movedFrom).toBeNull();
  });

  test("switched off, it ends what is open", async () => {
    const { pair, address, server } = await sharedShop();
    const { cookie } = await pair("viewer");
    const { body } = await fetch(new URL("/api/events", address()), { headers: { cookie } });
    const reader = body!.getReader();
    await reader.read();
    await server.sharing.choose({ on: false, way: "plain" });
    const ended = async () => {
      for (;;) if ((await reader.read()).done) return "ended";
    };
    expect(await ended().catch(() => "cut")).toMatch(/ended|cut/);
  });

  test("a connection that says nothing, or its headers too slowly, is ended", { timeout: 40_000 }, async () => {
    const { address } = await sharedShop();
    const ended = (first: string) =>
      new Promise<string>((resolve) => {
        const socket = connect({ host: "127.0.0.1", port: Number(address().port) }, () => socket.write(first));
        socket.on("data", () => {});
        socket.on("close", () => resolve("ended"));
        socket.on("error", () => resolve("ended"));
      });
    expect(await Promise.all([ended(""), ended("GET / HTTP/1.1\r\nHost: a")])).toEqual(["ended", "ended"]);
  });

  test("a body that comes a byte at a time is ended in its time: a stranger's soon, a device's later", async () => {
    const { address, pair } = await sharedShop({
      patience: { strangerMs: 400, headersMs: 1800, requestMs: 1800, checkEveryMs: 100 },
    });
    const { cookie } = await pair("helper");
    const endedAfterMs = (path: string, more = "") =>
      new Promise<number>((resolve) => {
        const began = performance.now();
        const { host, origin, port } = address();
        const socket = connect({ host: "127.0.0.1", port: Number(port) });
        const head = `POST ${path} HTTP/1.1\r\nHost: ${host}\r\nOrigin: ${origin}\r\nContent-Length: 1900\r\n${more}\r\n`;
        socket.write(`${head}Content-Type: application/json\r\n\r\n`);
        const drip = setInterval(() => socket.write(" "), 50);
        socket.on("error", () => {}).resume();
        socket.on("close", () => {
          clearInterval(drip);
          resolve(performance.now() - began);
        });
      });
    const [refused, pairing, device] = await Promise.all([
      endedAfterMs("/api/trials"),
      endedAfterMs("/api/pairing"),
      endedAfterMs("/api/trials", `Cookie: ${cookie}\r\n`),
    ]);
    expect(Math.max(refused, pairing)).toBeLessThan(1500);
    expect(device).toBeGreaterThan(1700);
    expect(device).toBeLessThan(6000);
  });

  test("who asks and never reads the answer is ended, so that it fills no memory", { timeout: 8000 }, async () => {
    let ended: () => void = () => {};
    const end = new Promise<void>((resolve) => {
      ended = resolve;
    });
    const answer: Parameters<typeof networkListener>[0]["answer"] = (request, response) => {
      request.socket.once("close", ended);
      response.end(Buffer.alloc(60_000_000));
    };
    const patience = { silenceMs: 300 };
    const listener = await networkListener({ host: "127.0.0.1", port: 0, credentials: null, patience, answer });
    onTestFinished(() => listener.close());
    const socket = connect({ host: "127.0.0.1", port: listener.port });
    socket.on("error", () => {});
    socket.pause().write("GET / HTTP/1.1\r\nHost: a\r\n\r\n");
    await end;
  });

  // macOS has only one address of its own loopback.
  test.skipIf(process.platform === "darwin")(
    "strangers from several addresses do not keep a device out",
    { timeout: 30_000 },
    async () => {
      const { address, pair } = await sharedShop();
      const { as } = await pair("viewer");
      const port = Number(address().port);
      const sockets = [2, 3, 4, 5, 6, 7, 8, 9].flatMap((last) =>
        Array.from({ length: connectionsOfOneAddress }, () =>
          connect({ host: "127.0.0.1", port, localAddress: `127.0.0.${last}` }),
        ),
      );
      onTestFinished(() => sockets.forEach((socket) => void socket.destroy()));
      for (const socket of sockets) socket.on("error", () => {}).resume();
      await Promise.all(sockets.map((socket) => new Promise((resolve) => socket.once("connect", resolve))));
      expect((await as("/api/shop")).status).toBe(200);
      expect(sockets.filter((socket) => !socket.destroyed).length).toBeGreaterThan(500);
    },
  );

  test("one address holds only so many connections at once", async () => {
    const { address } = await sharedShop();
    const port = Number(address().port);
    const sockets = Array.from({ length: connectionsOfOneAddress + 20 }, () => connect({ host: "127.0.0.1", port }));
    onTestFinished(() => sockets.forEach((socket) => void socket.destroy()));
    for (const socket of sockets) socket.on("error", () => {}).resume();
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(sockets.filter((socket) => !socket.destroyed)).toHaveLength(connectionsOfOneAddress);
  });
});

describe("what counts as the local network", () => {
  test.each([
    ["192.168.1.7", true],
    ["10.20.30.40", true],
    ["172.16.0.1", true],
    ["172.31.255.255", true],
    ["169.254.3.4", true],
    ["100.64.0.1", true],
    ["127.0.0.1", true],
    ["::ffff:192.168.1.7", true],
    ["172.32.0.1", false],
    ["192.169.0.1", false],
    ["100.128.0.1", false],
    ["203.0.113.5", false],
    ["8.8.8.8", false],
    ["2001:db8::1", false],
    ["", false],
  ])("%s: %s (RFC 1918, 3927, 6598)", (address, is) => expect(isLocalAddress(address)).toBe(is));

  test("every address that is shown is one of it", () => {
    for (const address of addressesAt("0.0.0.0")) expect(isLocalAddress(address)).toBe(true);
  });

  test.each([
    ["Shed", "shed.local"],
    ["shed.local", "shed.local"],
    ["shed pc", null],
    ["", null],
  ])("a machine named %j is found as %j", (name, found) => expect(localName(name)).toBe(found));
});
