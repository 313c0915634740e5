import { randomUUID } from "node:crypto";
import { connect } from "node:net";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import { type Sent, send, sharedShop } from "../../../tests/network-side.ts";
import { shedDraft, testServer } from "../../../tests/test-server.ts";
import { linesOfOneDevice } from "../event-hub.ts";
import { perMinute } from "./access-guard.ts";
import { accessTable, ruleFor } from "./access-table.ts";

const post = (body: object): Sent => ({ method: "POST", body });
const trial = () => ({ ...shedDraft, id: randomUUID() });

describe("without a token from the network", () => {
  test.each(["/api/shop", "/api/trials", "/api/today", "/api/events", "/api/devices", "/api/me", "/api/nothing"])(
    "%s is not answered",
    async (path) => {
      const { there } = await sharedShop();
      const { status, text } = await there(path);
      expect(status).toBe(401);
      expect(text).toMatch(/this device is not let in/);
    },
  );

  test.each([
    ["a made-up cookie", { cookie: `coatwright=${"x".repeat(43)}` }],
    ["a made-up bearer token", { authorization: `Bearer ${"x".repeat(43)}` }],
    ["the name of this machine", { cookie: "coatwright=this machine" }],
    ["a claim to come from this machine", { "x-forwarded-for": "127.0.0.1", "x-real-ip": "127.0.0.1" }],
  ])("%s opens nothing", async (_what, headers) => {
    const { there } = await sharedShop();
    expect((await there("/api/trials", { headers })).status).toBe(401);
  });

  test("nothing is written", async () => {
    const { there, here, address } = await sharedShop();
    const { origin } = address();
    expect((await there("/api/trials", { ...post(trial()), headers: { origin } })).status).toBe(401);
    expect(JSON.parse((await here("/api/trials")).text)).toEqual([]);
  });

  test("this machine itself needs none", async () => {
    const { here } = await sharedShop();
    expect(JSON.parse((await here("/api/me")).text)).toEqual({
      device: { id: "this machine", name: "this machine", role: "owner" },
      secure: true,
      sharing: true,
      moved: false,
    });
  });
});

describe("each role does what it is for, and no more", () => {
  test.each([
    ["viewer", "GET", "/api/trials", 200],
    ["viewer", "GET", "/api/me", 200],
    ["helper", "GET", "/api/me", 200],
    ["owner", "GET", "/api/me", 200],
    ["viewer", "POST", "/api/trials", 403],
    ["viewer", "PUT", "/api/shop/preferences", 403],
    ["viewer", "GET", "/api/devices", 403],
    ["viewer", "POST", "/api/pairing/code", 403],
    ["helper", "GET", "/api/today", 200],
    ["helper", "POST", "/api/trials", 403],
    ["helper", "GET", "/api/sharing", 403],
    ["helper", "POST", "/api/pairing/code", 403],
    ["helper", "DELETE", "/api/devices/anyone", 403],
    ["helper", "GET", "/api/nothing", 403],
    ["owner", "POST", "/api/trials", 201],
    ["owner", "GET", "/api/devices", 200],
    ["owner", "POST", "/api/pairing/code", 201],
    ["owner", "GET", "/api/nothing", 404],
    ["owner", "PUT", "/api/sharing", 403],
  ] as const)("%s: %s %s is %d", async (role, method, path, status) => {
    const { pair } = await sharedShop();
    const { as } = await pair(role);
    const sent = method === "GET" ? {} : { method, ...(path === "/api/trials" ? { body: trial() } : {}) };
    expect((await as(path, sent)).status).toBe(status);
  });

  test("every row of the table holds: no token, no answer; below its role, refused", { timeout: 60_000 }, async () => {
    const { pair, there, address } = await sharedShop();
    const [viewer, helper] = [await pair("viewer"), await pair("helper")];
    const id = randomUUID();
    for (const [row, { least }] of Object.entries(accessTable)) {
      if (least === "everybody") continue;
      const [method, route] = row.split(" ") as [string, string];
      const path = route.replace(/:\w+/g, id);
      const headers = { "content-length": "0", origin: address().origin };
      expect((await there(path, { method, headers })).status, `${row} without a token`).toBe(401);
      const below = { viewer: ["device", "viewer"], helper: ["device", "viewer", "sensor", "helper"] };
      for (const [role, { as }] of Object.entries({ viewer, helper }))
        if (!below[role as keyof typeof below].includes(least))
          expect((await as(path, { method, headers })).status, `${row} as ${role}`).toBe(403);
    }
  });

  test("a viewer's observation is refused, a helper's is kept", async () => {
    const { pair, here } = await sharedShop();
    const made = trial();
    await here("/api/trials", post(made));
    const body = { kind: "put out", site: "shed", date: "2026-04-01", coupons: ["1", "2"] };
    const path = `/api/trials/${made.id}/observations`;
    const write = () => post({ id: randomUUID(), by: "Ben", corrects: null, body });
    expect((await (await pair("viewer")).as(path, write())).status).toBe(403);
    expect((await (await pair("helper")).as(path, write())).status).toBe(201);
    expect(JSON.parse((await here(`/api/trials/${made.id}`)).text).observations).toHaveLength(2);
  });

  test("a trial is closed by the owner, not by a helper, who cannot take that back either", async () => {
    const { pair, here } = await sharedShop();
    const made = trial();
    await here("/api/trials", post(made));
    const [helper, owner] = [await pair("helper"), await pair("owner")];
    const path = `/api/trials/${made.id}/observations`;
    const write = (body: object, corrects: object | null = null) =>
      post({ id: randomUUID(), by: "Ben", corrects, body });
    expect((await helper.as(path, write({ kind: "unblinding" }))).text).toMatch(/its end are the owner's/);
    const closed = await owner.as(path, write({ kind: "unblinding" }));
    expect(closed.status).toBe(201);
    const back = write({ kind: "withdrawal" }, { id: JSON.parse(closed.text).id, why: "too soon" });
    expect((await helper.as(path, back)).status).toBe(403);
  });

  test("a sensor brings readings of its own site, and nothing else", async () => {
    const { here, there } = await sharedShop();
    const { token } = JSON.parse((await here("/api/devices", post({ name: "shed sensor", site: "shed" }))).text);
    const headers = { authorization: `Bearer ${token}` };
    const readings = post([{ at: "2026-04-01T08:00:00Z", tempC: 4, rhPercent: 92 }]);
    expect((await there("/api/sites/shed/readings", { ...readings, headers })).status).toBe(201);
    expect((await there("/api/sites/roof/readings", { ...readings, headers })).status).toBe(403);
    expect((await there("/api/trials", { headers })).status).toBe(403);
    expect(
      (await there("/api/sites/shed/readings?from=2026-04-01T00:00:00Z&to=2026-04-02T00:00:00Z", { headers })).status,
    ).toBe(403);
    // Its token is no cookie, and a cookie's is no bearer's.
    expect((await there("/api/me", { headers: { cookie: `coatwright=${token}` } })).status).toBe(401);
  });

  test("a browser's token is no good outside its cookie", async () => {
    const { pair, there } = await sharedShop();
    const { token } = await pair("owner");
    expect((await there("/api/me", { headers: { authorization: `Bearer ${token}` } })).status).toBe(401);
  });

  test.each(["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE"])("%s of a route without a row is the owner's", (method) =>
    expect(ruleFor({ method, route: "/api/not-yet", path: "/api/not-yet" })).toEqual({ least: "owner" }),
  );

  test("every route has a row of its own in the table, and every row a route", async () => {
    const { app } = await testServer();
    const rows = Object.keys(accessTable).map((row) => row.split(" ") as [string, string]);
    // A route that is not there throws; "/*" and the demonstration stand only where their files are.
    const elsewhere = ["/*", "/api/demo"];
    const missing = rows.filter(
      ([method, url]) => !elsewhere.includes(url) && !app.hasRoute({ method: method as "GET", url }),
    );
    expect(missing).toEqual([]);
    await app.ready();
    const document = app.swagger() as { paths: Record<string, Record<string, unknown>> };
    const routes = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path.replace(/\{(\w+)\}/g, ":$1")}`),
    );
    expect(routes.length).toBeGreaterThan(20);
    expect(routes.filter((route) => !(route in accessTable))).toEqual([]);
  });
});

describe("a device that is sent away", () => {
  test("is out with its next request", async () => {
    const { pair, here } = await sharedShop();
    const { as, device } = await pair("helper");
    expect((await as("/api/shop")).status).toBe(200);
    expect((await here(`/api/devices/${device.id}`, { method: "DELETE" })).status).toBe(200);
    expect((await as("/api/shop")).status).toBe(401);
    expect(JSON.parse((await here("/api/devices")).text)).toEqual([]);
  });

  test("goes on with no photograph that it began to send in pieces, paired anew neither", async () => {
    const { pair, here } = await sharedShop();
    const gone = await pair("helper");
    const begun = await gone.as("/api/uploads", post({ sha256: "0".repeat(64), bytes: 2000, type: "image/jpeg" }));
    const { id } = JSON.parse(begun.text);
    const headers = { "content-type": "application/octet-stream" };
    const piece = ({ as }: typeof gone, offset: number) =>
      as(`/api/uploads/${id}?offset=${offset}`, { method: "PATCH", headers, body: "x".repeat(100) });
    expect((await piece(gone, 0)).status).toBe(200);
    await here(`/api/devices/${gone.device.id}`, { method: "DELETE" });
    expect((await piece(gone, 100)).status).toBe(401);
    expect((await piece(await pair("helper"), 100)).status).toBe(404);
  });

  test("loses its open live line and its running upload at once; others keep theirs", async () => {
    const { pair, here, address } = await sharedShop();
    const [gone, stays] = [await pair("helper"), await pair("viewer")];
    const listen = async ({ cookie }: { cookie: string }) => {
      const { body } = await fetch(new URL("/api/events", address()), { headers: { cookie } });
      const reader = body!.getReader();
      await reader.read();
      return {
        ended: (async () => {
          for (;;) if ((await reader.read()).done) return "ended";
        })().catch(() => "cut"),
        reader,
      };
    };
    const [line, other] = [await listen(gone), await listen(stays)];
    const endless = new ReadableStream({
      pull: async (to) => {
        await new Promise((resolve) => setTimeout(resolve, 20));
        to.enqueue(new TextEncoder().encode("--x\r\n"));
      },
    });
    const upload = fetch(new URL("/api/photos", address()), {
      method: "POST",
      headers: { cookie: gone.cookie, origin: address().origin, "content-type": "multipart/form-data; boundary=x" },
      body: endless,
      duplex: "half",
    } as RequestInit).then(
      (answer) => answer.status,
      () => "cut",
    );
    await new Promise((resolve) => setTimeout(resolve, 200));
    await here(`/api/devices/${gone.device.id}`, { method: "DELETE" });
    expect(await line.ended).toMatch(/ended|cut/);
    expect(await upload).toBe("cut");
    const still = await Promise.race([other.ended, new Promise((resolve) => setTimeout(() => resolve("open"), 300))]);
    expect(still).toBe("open");
    await other.reader.cancel();
  });
});

describe("tricks of other pages", () => {
  test.each(["plain", "encrypted"] as const)(
    "a name that somebody let point here is refused (%s)",
    { timeout: 30_000 },
    async (way) => {
      const { pair, address } = await sharedShop({ way });
      const { as } = await pair("viewer");
      const asked = async (host: string, more = {}) => (await as("/api/shop", { headers: { host, ...more } })).status;
      const { port } = address();
      const foreign = [
        "shed.example",
        `shed.example:${port}`,
        "127.0.0.1.shed.example",
        "localhost",
        "[::1]",
        `[::1]:${port}`,
      ];
      const odd = [
        "127.0.0.1@shed.example",
        "127.0.0.1.",
        "127.0.0.1:x",
        "0.0.0.0",
        "127.1",
        "2130706433",
        "*",
        "127.0.0.1,shed.example",
      ];
      for (const host of [...foreign, ...odd]) expect(await asked(host), host).toBe(403);
      // What a proxy would say is not believed, either way.
      expect(await asked("shed.example", { "x-forwarded-host": "127.0.0.1", forwarded: "host=127.0.0.1" })).toBe(403);
      expect(await asked("127.0.0.1", { "x-forwarded-host": "shed.example" })).toBe(200);
      expect(await asked(`127.0.0.1:${port}`)).toBe(200);
    },
  );

  test.each([
    ["a foreign page", { origin: "https://shed.example" }],
    ["another program on this machine", { origin: "http://127.0.0.1:3000" }],
    ["a page without an origin of its own", { origin: "null" }],
    ["a page that says nothing of where it is from", { origin: "" }],
    ["a foreign page that hides its origin", { "sec-fetch-site": "cross-site" }],
    ["another port of this machine", { "sec-fetch-site": "same-site" }],
  ])("a write from %s with the phone's own cookie is refused: %#", async (_who, headers) => {
    const { pair, here } = await sharedShop();
    const { as } = await pair("owner");
    expect((await as("/api/trials", { ...post(trial()), headers: headers as Record<string, string> })).status).toBe(
      403,
    );
    expect(JSON.parse((await here("/api/trials")).text)).toEqual([]);
  });

  test("a write that names no page at all is refused where a cookie would vouch for it", async () => {
    const { pair, there } = await sharedShop();
    const { cookie } = await pair("owner");
    const answer = await there("/api/trials", { ...post(trial()), headers: { cookie } });
    expect(answer).toMatchObject({ status: 403, text: expect.stringMatching(/Origin is missing/) });
  });

  test.each(["cross-site", "same-site"])(
    "a read into a page that is %s is refused, a link from there is not",
    async (from) => {
      const { pair } = await sharedShop();
      const { as } = await pair("viewer");
      const headers = { "sec-fetch-site": from };
      expect((await as("/api/trials", { headers: { ...headers, "sec-fetch-mode": "no-cors" } })).status).toBe(403);
      expect((await as("/api/shop", { headers: { ...headers, "sec-fetch-mode": "navigate" } })).status).toBe(200);
    },
  );

  test("no answer lets another page read it, frame it, run its script or guess its kind", async () => {
    const { pair, there } = await sharedShop();
    const { as } = await pair("viewer");
    for (const { headers } of [await as("/api/shop"), await there("/api/shop"), await there("/pair")]) {
      expect(headers["access-control-allow-origin"]).toBeUndefined();
      expect(headers).toMatchObject({
        "cross-origin-resource-policy": "same-origin",
        "x-content-type-options": "nosniff",
        "x-frame-options": "DENY",
        "referrer-policy": "no-referrer",
      });
      expect(headers["content-security-policy"]).toMatch(/script-src 'self';.*frame-ancestors 'none'/);
    }
  });

  test("the cookie is out of reach for scripts and for other pages", async () => {
    const { here, there, address } = await sharedShop({ way: "encrypted" });
    const { code } = JSON.parse((await here("/api/pairing/code", { method: "POST" })).text);
    const { origin } = address();
    const paired = await there("/api/pairing", { ...post({ code, name: "phone" }), headers: { origin } });
    expect(String(paired.headers["set-cookie"])).toMatch(
      /^__Host-coatwright=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=34560000; Secure$/,
    );
  });
});

test("a device that comes by keeps its cookie; one that is not let in gets none", async () => {
  const { pair, there } = await sharedShop();
  const { as, cookie } = await pair("viewer");
  expect(String((await as("/api/me")).headers["set-cookie"])).toContain(`${cookie}; Path=/; HttpOnly; SameSite=Strict`);
  expect((await there("/api/me")).headers["set-cookie"]).toBeUndefined();
});

describe("too much", () => {
  test("a stranger's body beyond what a code and a name need", async () => {
    const { there, address } = await sharedShop();
    const body = { code: "A", name: "x".repeat(3000) };
    const { origin } = address();
    expect((await there("/api/pairing", { method: "POST", body, headers: { origin } })).status).toBe(413);
  });

  test("a request of two lengths, in which another could hide, or one without a host", async () => {
    const { address } = await sharedShop();
    const answerTo = (text: string) =>
      new Promise<string>((resolve) => {
        const socket = connect({ host: "127.0.0.1", port: Number(address().port) }, () => socket.write(text));
        socket.once("data", (data) => resolve(data.toString().split("\r\n")[0]!));
        socket.on("error", () => resolve("cut")).on("close", () => resolve("cut"));
      });
    const head = "POST /api/pairing HTTP/1.1\r\nHost: 127.0.0.1\r\n";
    const chunked = "0\r\n\r\nGET /api/shop HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n";
    expect(await answerTo(`${head}Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n${chunked}`)).toMatch(/400/);
    expect(await answerTo(`${head}Content-Length: 4\r\nContent-Length: 5\r\n\r\nabcd`)).toMatch(/400/);
    expect(await answerTo("GET /api/shop HTTP/1.1\r\n\r\n")).toMatch(/400/);
    const own = "Host: 127.0.0.1\r\n";
    expect(await answerTo(`GET /pair HTTP/1.1\r\n${own}Host: shed.example\r\n\r\n`)).toMatch(/400/);
    expect(await answerTo(`GET http://shed.example/pair HTTP/1.1\r\n${own}\r\n`)).toMatch(/400/);
    expect(await answerTo(`GET /api/shop%zz HTTP/1.1\r\n${own}\r\n`)).toMatch(/400/);
  });

  test("a body nested beyond reason is refused in words", async () => {
    const { pair } = await sharedShop();
    const { as } = await pair("owner");
    const headers = { "content-type": "application/json" };
    const body = "[".repeat(500_000) + "]".repeat(500_000);
    expect(await as("/api/trials", { method: "POST", headers, body })).toMatchObject({
      status: 422,
      text: expect.stringMatching(/nested too deeply/),
    });
  });

  test("headers beyond the limit", async () => {
    const { there } = await sharedShop();
    expect((await there("/api/shop", { headers: { "x-filler": "x".repeat(20_000) } })).status).toBe(431);
  });

  test("a body beyond the limit", async () => {
    const { pair } = await sharedShop();
    const { as } = await pair("owner");
    expect((await as("/api/trials", post({ filler: "x".repeat(2_100_000) }))).status).toBe(413);
  });

  test.each([
    "/../shop.db",
    "/%2e%2e/shop.db",
    "/..%2f..%2fshop.db",
    "/assets/..%5c..%5cshop.db",
    "/api/photos/..%2f..%2fshop.db",
  ])("a path out of its folder (%s) finds nothing", async (path) => {
    const { pair, address } = await sharedShop();
    const { cookie } = await pair("owner");
    const url = address();
    // Written as it stands: a URL would be put straight first.
    const raw = { protocol: url.protocol, hostname: url.hostname, port: url.port, pathname: path, search: "" };
    const { status, text } = await send(raw as URL, { headers: { cookie } });
    expect([400, 403, 404, 422]).toContain(status);
    expect(text).not.toMatch(/SQLite/);
  });

  test("pages of one device that listen; other devices' do", { timeout: 30_000 }, async () => {
    const { pair, address } = await sharedShop();
    const [flood, calm] = [await pair("viewer"), await pair("viewer")];
    const listen = async ({ cookie }: { cookie: string }) => {
      const { status, body } = await fetch(new URL("/api/events", address()), { headers: { cookie } });
      onTestFinished(() => body?.cancel().catch(() => {}));
      return status;
    };
    const statuses = [];
    for (let at = 0; at < linesOfOneDevice + 3; at++) statuses.push(await listen(flood));
    expect(statuses).toEqual([...Array(linesOfOneDevice).fill(200), 429, 429, 429]);
    expect(await listen(calm)).toBe(200);
  });

  test("what costs seconds: one device may ask for it only so often, the others not less for that", {
    timeout: 30_000,
  }, async () => {
    const { pair } = await sharedShop();
    const [flood, calm] = [await pair("helper"), await pair("helper")];
    const ask = ({ as }: typeof flood) => as("/api/measurements", post({})).then(({ status }) => status);
    const statuses = await Promise.all(Array.from({ length: perMinute.heavy + 10 }, () => ask(flood)));
    expect(statuses.filter((status) => status === 429)).toHaveLength(10);
    expect(await ask(calm)).toBe(422);
    expect((await flood.as("/api/shop")).status).toBe(200);
  });

  test("questions of a stranger, whatever names it gives itself", { timeout: 30_000 }, async () => {
    const { there, pair } = await sharedShop();
    const { as } = await pair("viewer");
    const statuses: number[] = [];
    for (let at = 0; at < perMinute.ofStranger + 20; at += 20) {
      const headers = { "x-forwarded-for": `192.168.1.${at % 250}` };
      const asked = Array.from({ length: 20 }, () => there("/api/shop", { headers }));
      statuses.push(...(await Promise.all(asked)).map(({ status }) => status));
    }
    expect(statuses.filter((status) => status === 429).length).toBeGreaterThan(10);
    expect((await as("/api/shop")).status).toBe(200);
  });

  test("one device that floods the shop is held back, and the others are served", { timeout: 60_000 }, async () => {
    const { pair } = await sharedShop();
    const [flood, calm] = [await pair("viewer"), await pair("helper")];
    const statuses = new Map<number, number>();
    let slowestMs = 0;
    for (let at = 0; at < perMinute.ofDevice + 200; at += 40) {
      const answers = Array.from({ length: 40 }, () => flood.as("/api/shop"));
      const asked = performance.now();
      expect((await calm.as("/api/shop")).status).toBe(200);
      slowestMs = Math.max(slowestMs, performance.now() - asked);
      for (const { status } of await Promise.all(answers)) statuses.set(status, (statuses.get(status) ?? 0) + 1);
    }
    expect(statuses.get(200)).toBeLessThanOrEqual(perMinute.ofDevice);
    expect(statuses.get(429)).toBeGreaterThan(0);
    expect(slowestMs).toBeLessThan(3000);
    expect((await flood.as("/api/shop")).headers["retry-after"]).toMatch(/^\d+$/);
  });
});

test("no token stands in what the server logs", async () => {
  const logged = vi.spyOn(process.stderr, "write").mockReturnValue(true);
  const { pair, server } = await sharedShop();
  const { as, token } = await pair("owner");
  vi.spyOn(server.sharing.pairing, "open").mockImplementation(() => {
    throw new Error("broken for this test");
  });
  expect((await as("/api/pairing/code", { method: "POST" })).status).toBe(500);
  const lines = logged.mock.calls.flat().map(String).join("");
  vi.restoreAllMocks();
  expect(lines).toMatch(/broken for this test/);
  expect(lines).not.toContain(token);
});
