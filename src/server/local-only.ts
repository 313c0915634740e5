/**
 * The page and its API are for this machine's own browser. A foreign page that somebody opens beside it must neither
 * read the shop (a name of its own that points here) nor write to it (a form or script that posts here).
 */
import type { FastifyReply, FastifyRequest } from "fastify";
import { shopClockHeader } from "../api/shop-clock.ts";
import { sendProblem } from "./problem-details.ts";

const ownNames = ["127.0.0.1", "localhost", "[::1]"];
const readOnly = ["GET", "HEAD", "OPTIONS"];

export async function refuseForeign(request: FastifyRequest, reply: FastifyReply) {
  const host = request.headers.host ?? "";
  if (!ownNames.includes(host.replace(/:\d+$/, "")))
    return sendProblem(reply, { status: 403, detail: `Host is "${host}"; expected one of ${ownNames.join(", ")}` });
  const { origin, "sec-fetch-site": from } = request.headers;
  if (!readOnly.includes(request.method) && origin !== undefined && origin !== `http://${host}`)
    return sendProblem(reply, {
      status: 403,
      detail: `Origin is "${origin}"; expected http://${host}, this page itself`,
    });
  // A browser says this by itself, and no page can alter it; a script of the user's sends none.
  if (!readOnly.includes(request.method) && from !== undefined && from !== "same-origin")
    return sendProblem(reply, {
      status: 403,
      detail: `Sec-Fetch-Site is "${from}"; expected same-origin, this page itself`,
    });
}

const headers = {
  "content-security-policy": [
    "default-src 'self'",
    "script-src 'self'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; "),
  "cross-origin-resource-policy": "same-origin",
  "cross-origin-opener-policy": "same-origin",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  // For browsers that do not know the newer rule in the policy above.
  "x-frame-options": "DENY",
};

/** A route that needs other rules (a report with styles of its own) sets its own header before. */
export async function addSafetyHeaders(_request: FastifyRequest, reply: FastifyReply) {
  for (const [name, value] of Object.entries(headers)) if (!reply.hasHeader(name)) reply.header(name, value);
  // An answer that may be kept would tell a moment long past.
  if (!reply.hasHeader("cache-control")) reply.header(shopClockHeader, String(Date.now()));
}
