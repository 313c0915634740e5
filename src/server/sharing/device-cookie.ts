/** How a browser carries its token: where no script can read it and no other page can send it. Never in an address. */
import type { FastifyReply, FastifyRequest } from "fastify";

type Named = { encrypted: boolean };

/** The prefix makes a browser refuse the cookie from anything but this very address over TLS. */
const nameOf = ({ encrypted }: Named) => (encrypted ? "__Host-coatwright" : "coatwright");

/** The longest that browsers keep one; each answer about the device itself begins it anew. */
const maxAgeS = 400 * 86_400;

export function tokenInCookie(request: FastifyRequest, connection: Named): string | null {
  const wanted = nameOf(connection);
  for (const pair of (request.headers.cookie ?? "").split(";")) {
    const [name, value] = pair.trim().split("=", 2);
    if (name === wanted && value) return value;
  }
  return null;
}

export function giveCookie(reply: FastifyReply, token: string, connection: Named): void {
  const attributes = ["Path=/", "HttpOnly", "SameSite=Strict", `Max-Age=${maxAgeS}`];
  if (connection.encrypted) attributes.push("Secure");
  reply.header("set-cookie", [`${nameOf(connection)}=${token}`, ...attributes].join("; "));
}

/** What a sensor or a script sends instead. */
export function bearerToken({ headers }: FastifyRequest): string | null {
  return /^Bearer ([\w-]{20,100})$/.exec(headers.authorization ?? "")?.[1] ?? null;
}
