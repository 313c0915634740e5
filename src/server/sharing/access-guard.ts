/**
 * Who is let in. At this machine: its own page alone. Over the network: only devices that were paired, each as far as
 * its role goes, none faster than a person needs, and none through another page's tricks.
 */
import rateLimit from "@fastify/rate-limit";
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import type { Role } from "../../api/sharing.ts";
import { refuseForeign } from "../local-only.ts";
import { sendProblem } from "../problem-details.ts";
import { type Access, may, ruleFor } from "./access-table.ts";
import { isAmong } from "./certificate-names.ts";
import { bearerToken, tokenInCookie } from "./device-cookie.ts";
import { tokenSha256 } from "./device-token.ts";
import { type Arrival, networkArrival } from "./network-listener.ts";
import type { Sharing } from "./sharing.ts";

/** Who asks. Of a sensor, the one site that it may speak of. */
export type DeviceIdentity = { id: string; name: string; role: Role; site?: string };

declare module "fastify" {
  interface FastifyRequest {
    /** Null only where everybody is answered: the page's own files, and pairing. */
    device: DeviceIdentity | null;
  }
}

export const thisMachine: DeviceIdentity = { id: "this machine", name: "this machine", role: "owner" };

const does: Record<Role, string> = {
  viewer: "looks only",
  helper: "looks and writes down",
  owner: "may do all that the owner may",
  sensor: "brings readings",
};

const takes: Partial<Record<Access, string>> = {
  viewer: "one that somebody looks with",
  sensor: "a sensor, or one that writes down",
  helper: "one that writes down",
  owner: "an owner's device",
};

/** Requests a minute. A page with a season of small pictures asks for some hundreds at once. */
export const perMinute = { ofDevice: 1200, heavy: 90, ofStranger: 400, pairing: 20 };

export async function guardAccess(app: FastifyInstance, sharing: Sharing): Promise<void> {
  await app.register(rateLimit, { global: false });
  const limit = (max: number) => {
    const counted = app.createRateLimit({ max, timeWindow: 60_000, keyGenerator: whoCounts });
    return async (request: FastifyRequest, reply: FastifyReply) => {
      const found = await counted(request);
      return found.isAllowed || !found.isExceeded ? null : sendTooMany(reply, found.ttlInSeconds);
    };
  };
  const limits = {
    ofDevice: limit(perMinute.ofDevice),
    heavy: limit(perMinute.heavy),
    ofStranger: limit(perMinute.ofStranger),
    pairing: limit(perMinute.pairing),
  };
  app.decorateRequest("device", null);
  app.addHook("onRequest", async (request, reply) => {
    const arrival = networkArrival(request.raw);
    if (isAmbiguous(request)) return sendProblem(reply, { status: 400, detail: "expected one Host, and a path" });
    if (!arrival) {
      request.device = thisMachine;
      return refuseForeign(request, reply);
    }
    const path = pathOf(request);
    const { method } = request;
    const rule = ruleFor({ method, route: request.routeOptions.url, path });
    const foreign = refuseForeignPage(request, reply, arrival, sharing.names());
    if (foreign) return foreign;
    // Looked at on the doorstep too: a sensor's token that comes in plain text is void from then on.
    if (arrival.doorstep && bearerToken(request)) await deviceOf(request, arrival, sharing);
    if (arrival.doorstep) return (await limits.ofStranger(request, reply)) ?? doorstep(request, reply, rule.least);
    request.device = await deviceOf(request, arrival, sharing);
    arrival.fromDevice(request.device !== null);
    const tooMany = await (request.device ? limits.ofDevice : limits.ofStranger)(request, reply);
    if (tooMany) return tooMany;
    if (rule.heavy && request.device && (await limits.heavy(request, reply))) return reply;
    if (method === "POST" && path === "/api/pairing" && (await limits.pairing(request, reply))) return reply;
    if (request.device) sharing.open.note(request.device.id, reply.raw);
    return refuseByRole(request, reply, rule.least);
  });
}

/** Two hosts, or a whole address where a path belongs: who reads the one and who reads the other would not agree (RFC 9112, 3.2). */
function isAmbiguous({ raw, url }: FastifyRequest): boolean {
  const hosts = raw.rawHeaders.filter((header, at) => at % 2 === 0 && header.toLowerCase() === "host");
  return hosts.length > 1 || !url.startsWith("/");
}

const whoCounts = (request: FastifyRequest) => request.device?.id ?? request.ip;

export const pathOf = ({ url }: FastifyRequest): string => url.split("?")[0] ?? "";

const reads = ["GET", "HEAD", "OPTIONS"];

/**
 * A name that somebody else let point here (DNS rebinding), a write from another page, a read into another page: each is
 * refused before anybody asks for the token, since the browser sends that by itself.
 */
function refuseForeignPage(request: FastifyRequest, reply: FastifyReply, arrival: Arrival, names: string[]) {
  const { host = "", origin, "sec-fetch-site": from, "sec-fetch-mode": mode, cookie } = request.headers;
  const refuse = (detail: string) => sendProblem(reply, { status: 403, detail });
  if (!isAmong(names, host.replace(/:\d+$/, "").toLowerCase()))
    return refuse(`Host is "${host}"; expected one of ${names.join(", ")}`);
  const own = `${arrival.encrypted ? "https" : "http"}://${host}`;
  const isWrite = !reads.includes(request.method);
  // Every browser names the page that a write comes from; who carries no cookie is no browser.
  if (isWrite && cookie !== undefined && origin === undefined)
    return refuse(`Origin is missing; expected ${own}, this page itself`);
  if (isWrite && origin !== undefined && origin !== own)
    return refuse(`Origin is "${origin}"; expected ${own}, this page itself`);
  const isForeign = from !== undefined && from !== "same-origin" && from !== "none";
  // A link from elsewhere may open the page; nothing else from there is answered.
  if (isForeign && (isWrite || mode !== "navigate"))
    return refuse(`Sec-Fetch-Site is "${from}"; expected same-origin, this page itself`);
  return null;
}

/** Plain text beside an encrypted shop: the page's own files and how to trust it. All else goes round by the door. */
function doorstep(request: FastifyRequest, reply: FastifyReply, least: Access) {
  const path = pathOf(request);
  if (least === "everybody" && request.method !== "POST" && (isFile(path) || path === "/trust")) return;
  if (reads.includes(request.method) && !path.startsWith("/api/"))
    return reply.redirect(`https://${request.headers.host}${request.url}`, 307);
  return sendProblem(reply, { status: 403, detail: `this shop is shared encrypted; expected https, not http` });
}

/** A place of the page has no ending; what has one is a file. */
const isFile = (path: string) => /\.\w+$/.test(path);

async function deviceOf(request: FastifyRequest, arrival: Arrival, sharing: Sharing): Promise<DeviceIdentity | null> {
  const [cookie, bearer] = [tokenInCookie(request, arrival), bearerToken(request)];
  const token = bearer ?? cookie;
  if (token === null) return null;
  const found = await sharing.deviceByToken(tokenSha256(token));
  // A sensor's token is no good in a browser, nor a browser's in a script that got hold of it.
  if (!found || (found.role === "sensor") !== (bearer !== null)) return null;
  // What was once sent in plain text is no secret any more, and lets nobody into a shop that is encrypted since.
  if (found.way === "encrypted" && !arrival.encrypted) await sharing.revoke(found.id);
  if ((found.way === "encrypted") !== arrival.encrypted) return null;
  const { id, name, role, site } = found;
  return { id, name, role, ...(site === null ? {} : { site }) };
}

function refuseByRole(request: FastifyRequest, reply: FastifyReply, least: Access) {
  const { device } = request;
  if (least === "everybody" && (device || isOpenWithoutToken(request))) return;
  if (!device) return sendNotPaired(request, reply);
  const refuse = (detail: string) => sendProblem(reply, { status: 403, detail });
  if (least === "this machine") return refuse("this is done at the machine that serves the shop, not over the network");
  if (!may(device.role, least))
    return refuse(`this device ${does[device.role]}; for this it takes ${takes[least] ?? "another"}`);
  const { site } = request.params as { site?: string };
  if (device.role === "sensor" && site !== undefined && site !== device.site)
    return refuse(`site is "${site}"; expected "${device.site}", the one that this sensor reads`);
}

function isOpenWithoutToken(request: FastifyRequest): boolean {
  const path = pathOf(request);
  return isFile(path) || ["/pair", "/trust", "/api/pairing"].includes(path);
}

/** A person who opens the shop's address gets the page all the same: it holds nothing of the shop, and asks for a code. */
function sendNotPaired(request: FastifyRequest, reply: FastifyReply) {
  const isPlace = reads.includes(request.method) && !pathOf(request).startsWith("/api/");
  if (isPlace && request.server.hasReplyDecorator("sendFile")) return reply.code(401).sendFile("index.html");
  reply.header("www-authenticate", "Bearer");
  const detail = "this device is not let in; expected one that was paired, and not sent away since";
  return sendProblem(reply, { status: 401, detail });
}

function sendTooMany(reply: FastifyReply, seconds: number) {
  reply.header("retry-after", seconds);
  return sendProblem(reply, { status: 429, detail: `too many requests from this device; try again in ${seconds} s` });
}
