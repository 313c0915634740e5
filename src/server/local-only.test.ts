import { randomUUID } from "node:crypto";
import { describe, expect, test } from "vitest";
import { shedDraft, testServer } from "../../tests/test-server.ts";

describe("only this machine's own page is answered", () => {
  test.each([
    ["127.0.0.1:4477", 200],
    ["localhost:4477", 200],
    ["[::1]:4477", 200],
    ["localhost", 200],
    ["shed.example", 403],
    ["127.0.0.1.shed.example:4477", 403],
    ["localhost.shed.example", 403],
    ["192.168.1.7:4477", 403],
  ])("asked as %s: %d", async (host, status) => {
    const { app } = await testServer();
    expect((await app.inject({ url: "/api/shop", headers: { host } })).statusCode).toBe(status);
  });

  test.each([
    ["this page", { origin: "http://localhost:4477" }, 201],
    ["a script of the user's, which sends none", {}, 201],
    ["a foreign page", { origin: "https://shed.example" }, 403],
    ["another program's page on this machine", { origin: "http://localhost:3000" }, 403],
    ["a page without an origin of its own", { origin: "null" }, 403],
    ["this page, as the browser tells it", { origin: "http://localhost:4477", "sec-fetch-site": "same-origin" }, 201],
    ["a foreign page that hides its origin", { "sec-fetch-site": "cross-site" }, 403],
    ["another port of this machine that hides its origin", { "sec-fetch-site": "same-site" }, 403],
  ])("a write from %s: %#", async (_who, headers, status) => {
    const { app, get } = await testServer();
    const answer = await app.inject({
      method: "POST",
      url: "/api/trials",
      headers: { host: "localhost:4477", ...headers },
      payload: { ...shedDraft, id: randomUUID() },
    });
    expect(answer.statusCode).toBe(status);
    expect((await get("/api/trials")).json).toHaveLength(status === 201 ? 1 : 0);
  });

  test("a link from elsewhere still opens the page's own reads", async () => {
    const { app } = await testServer();
    const headers = { host: "localhost:4477", "sec-fetch-site": "cross-site" };
    expect((await app.inject({ url: "/api/shop", headers })).statusCode).toBe(200);
  });

  test("a report runs nothing, sends nothing, and stands in no other page's frame", async () => {
    const { app, startTrial } = await testServer();
    const { id } = await startTrial();
    const { statusCode, headers } = await app.inject({ url: `/api/trials/${id}/report` });
    const rules = String(headers["content-security-policy"]).split("; ");
    expect(statusCode).toBe(200);
    for (const rule of ["default-src 'none'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'"])
      expect(rules).toContain(rule);
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["referrer-policy"]).toBe("no-referrer");
  });

  test("a script in a trial's or a treatment's name stays a name in the report", async () => {
    const { app, post } = await testServer();
    const wicked = "<img src=x onerror=alert(1)><script>alert(1)</script>";
    const id = randomUUID();
    const { draft } = shedDraft;
    const treatments = draft.treatments.map((one) => (one.role === "control" ? one : { ...one, name: wicked }));
    const made = { ...shedDraft, id, name: wicked, by: wicked, draft: { ...draft, question: wicked, treatments } };
    expect((await post("/api/trials", made)).status).toBe(201);
    const { body } = await app.inject({ url: `/api/trials/${id}/report` });
    expect(body).toContain("&lt;script&gt;alert(1)");
    expect(body).not.toMatch(/<script|<img src=x/);
  });

  test("no script but the page's own files, on errors too", async () => {
    const { app } = await testServer();
    for (const url of ["/api/shop", "/nothing.js"]) {
      const policy = String((await app.inject({ url })).headers["content-security-policy"]);
      expect(policy).toContain("script-src 'self';");
      expect(policy).toContain("frame-ancestors 'none'");
    }
  });
});
