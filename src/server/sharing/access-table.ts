/**
 * Who may do what over the network: each route with the least role that it needs. What does not stand here needs the
 * owner, so that a route somebody adds is closed until its row says otherwise.
 */
import type { Role } from "../../api/sharing.ts";

/**
 * "this machine": only at the machine that serves the shop, whoever asks. "device": whatever is let in;
 * "sensor": sensors, and who may write.
 */
export type Access = "everybody" | "device" | "sensor" | "viewer" | "helper" | "owner" | "this machine";

/** `heavy`: costs this machine seconds, or fills its disk; few of them a minute. */
type Rule = { least: Access; heavy?: true };

export const accessTable: Record<string, Rule> = {
  // The page itself: its code and pictures, nothing of the shop.
  "GET /*": { least: "everybody" },
  "GET /coatwright-authority.crt": { least: "everybody" },
  "POST /api/pairing": { least: "everybody" },

  "GET /api/me": { least: "device" },
  "POST /api/sites/:site/readings": { least: "sensor" },

  "GET /api/shop": { least: "viewer" },
  "GET /api/events": { least: "viewer" },
  "GET /api/today": { least: "viewer" },
  "GET /api/trials": { least: "viewer" },
  "GET /api/trials/:id": { least: "viewer" },
  "GET /api/trials/:id/observations/:observationId/history": { least: "viewer" },
  "GET /api/trials/:id/report": { least: "viewer", heavy: true },
  "GET /api/trials/:id/looks.ics": { least: "viewer" },
  "GET /api/trials/:id/rust-model": { least: "viewer" },
  "GET /api/rust-models": { least: "viewer" },
  "GET /api/measurements/:id": { least: "viewer" },
  "GET /api/eye-tests": { least: "viewer" },
  "GET /api/jobs/:id": { least: "viewer" },
  "GET /api/photos/:hash": { least: "viewer" },
  "GET /api/sites": { least: "viewer" },
  "GET /api/sites/:site/readings": { least: "viewer" },

  "POST /api/trials/:id/observations": { least: "helper" },
  "POST /api/photos": { least: "helper", heavy: true },
  "POST /api/uploads": { least: "helper", heavy: true },
  "GET /api/uploads/:id": { least: "helper" },
  // Pieces are many and small; beginning counts, and only the last one costs anything.
  "PATCH /api/uploads/:id": { least: "helper" },
  "POST /api/measurements": { least: "helper", heavy: true },
  "POST /api/measurements/:id/corrections": { least: "helper", heavy: true },
  "POST /api/measurements/:id/model-preview": { least: "helper", heavy: true },
  "POST /api/eye-tests": { least: "helper" },
  "POST /api/tape-readings": { least: "helper", heavy: true },
  "POST /api/colour-readings": { least: "helper", heavy: true },
  "DELETE /api/jobs/:id": { least: "helper" },
  "PUT /api/shop/balance": { least: "helper" },

  "POST /api/trials": { least: "owner" },
  "POST /api/import": { least: "owner" },
  "POST /api/rust-models": { least: "owner", heavy: true },
  "PUT /api/trials/:id/rust-model": { least: "owner" },
  "PUT /api/shop/preferences": { least: "owner" },
  "PUT /api/shop/card-ruler": { least: "owner" },
  "GET /openapi.json": { least: "owner" },
  "GET /api/sharing": { least: "owner" },
  "POST /api/sharing/known-address": { least: "owner" },
  "POST /api/pairing/code": { least: "owner" },
  "DELETE /api/pairing/code": { least: "owner" },
  "GET /api/devices": { least: "owner" },
  "POST /api/devices": { least: "owner" },
  "DELETE /api/devices/:id": { least: "owner" },

  // The demonstration opens on this machine alone; and no device may weaken how the shop is shared.
  "POST /api/demo": { least: "this machine" },
  "PUT /api/sharing": { least: "this machine" },
};

export type Asked = { method: string; route: string | undefined; path: string };

/** A place of the page is asked for as a file is; below /api/ nothing is. */
export function ruleFor({ method, route, path }: Asked): Rule {
  const asRead = method === "HEAD" ? "GET" : method;
  if ((route === undefined || route === "/*") && path.startsWith("/api/")) return { least: "owner" };
  return accessTable[`${asRead} ${route ?? "/*"}`] ?? { least: "owner" };
}

const mayAll: Record<Role, readonly Access[]> = {
  sensor: ["everybody", "device", "sensor"],
  viewer: ["everybody", "device", "viewer"],
  helper: ["everybody", "device", "viewer", "sensor", "helper"],
  owner: ["everybody", "device", "viewer", "sensor", "helper", "owner"],
};

export const may = (role: Role, least: Access): boolean => mayAll[role].includes(least);
