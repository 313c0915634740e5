/** A shop shared with a network that is this machine's own loopback: what comes in there counts as from the network. */
import { request as plainRequest } from "node:http";
import { request as tlsRequest } from "node:https";
import { onTestFinished } from "vitest";
import type { PersonRole, SharingWay } from "../src/api/sharing.ts";
import type { Measurer } from "../src/server/measure-pool.ts";
import { type ShareOptions, startServer } from "../src/server/start-server.ts";
import { temporaryFolder } from "./temporary-folder.ts";

export type Answer = { status: number; headers: Record<string, string | string[] | undefined>; text: string };
export type Sent = { method?: string; headers?: Record<string, string>; body?: string | object };

const noMeasurer: Measurer = {
  run: () => Promise.reject(new Error("this test measures nothing")),
  adapt: () => Promise.reject(new Error("this test measures nothing")),
  close: async () => {},
};

export async function sharedShop({ way = "plain", ...more }: { way?: SharingWay } & ShareOptions = {}) {
  const shopDir = await temporaryFolder();
  const share = { host: "127.0.0.1", start: way, ...more };
  const server = await startServer({ shopDir, port: 0, measurer: noMeasurer, share });
  onTestFinished(() => server.close());
  const address = () => {
    const url = new URL(server.sharing.state().addresses[0]!);
    url.hostname = "127.0.0.1";
    return url;
  };
  /** As the owner, at the machine itself. */
  const here = (path: string, sent: Sent = {}) => send(new URL(path, server.url), sent);
  /** As somebody on the network, with nothing but what is sent. */
  const there = (path: string, sent: Sent = {}) => send(new URL(path, address()), sent);
  const pair = async (role: PersonRole, name = `the ${role}'s phone`) => {
    const { code } = JSON.parse((await here("/api/pairing/code", { method: "POST", body: { role } })).text);
    const origin = address().origin;
    const paired = await there("/api/pairing", { method: "POST", body: { code, name }, headers: { origin } });
    if (paired.status !== 201) throw new Error(paired.text);
    const cookie = String(paired.headers["set-cookie"]).split(";")[0]!;
    const { device } = JSON.parse(paired.text);
    const as = (path: string, sent: Sent = {}) =>
      there(path, { ...sent, headers: { cookie, origin: address().origin, ...sent.headers } });
    return { device, cookie, token: cookie.split("=")[1]!, as };
  };
  return { shopDir, server, address, here, there, pair };
}

/** Sends a request as it is written: any Host, any path, any header, and no cookie jar of its own. */
export function send(url: URL, { method = "GET", headers = {}, body }: Sent = {}): Promise<Answer> {
  const payload = typeof body === "object" ? JSON.stringify(body) : body;
  const type = typeof body === "object" ? { "content-type": "application/json" } : {};
  return new Promise((resolve, reject) => {
    const options = { method, headers: { ...type, ...headers }, path: url.pathname + url.search, agent: false };
    const secure = url.protocol === "https:";
    const target = { ...options, host: url.hostname, port: url.port };
    const sent = secure ? tlsRequest({ ...target, rejectUnauthorized: false }) : plainRequest(target);
    sent.on("error", reject);
    sent.on("response", async (response) => {
      const parts: Buffer[] = [];
      try {
        for await (const part of response) parts.push(part);
        resolve({ status: response.statusCode!, headers: response.headers, text: Buffer.concat(parts).toString() });
      } catch (error) {
        reject(error);
      }
    });
    sent.end(payload);
  });
}
