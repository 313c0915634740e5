/** Sharing on the local network: the switch, pairing, the devices that are let in, and who one is oneself. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import {
  device,
  me,
  newPairingCode,
  newSensor,
  pairing,
  pairingCode,
  sensorLetIn,
  sharingChoice,
  sharing as sharingSchema,
} from "../../api/sharing.ts";
import { NotFound, sendProblem } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";
import { thisMachine } from "../sharing/access-guard.ts";
import { giveCookie, tokenInCookie } from "../sharing/device-cookie.ts";
import { networkArrival } from "../sharing/network-listener.ts";

const withId = z.strictObject({ id: z.string() });

export const sharingRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { sharing, store, events }, done) => {
  app.get("/api/me", { schema: { response: { 200: me } } }, async (request, reply) => {
    const arrival = networkArrival(request.raw);
    const { id, name, role } = request.device ?? thisMachine;
    // The cookie's time begins anew as long as the device comes by.
    const token = arrival && tokenInCookie(request, arrival);
    if (arrival && token) giveCookie(reply, token, arrival);
    reply.header("cache-control", "no-store");
    const { on, movedFrom } = sharing.state();
    return { device: { id, name, role }, secure: arrival?.encrypted ?? true, sharing: on, moved: movedFrom !== null };
  });

  app.get("/api/sharing", { schema: { response: { 200: sharingSchema } } }, async () => sharing.state());

  app.put("/api/sharing", { schema: { body: sharingChoice, response: { 200: sharingSchema } } }, ({ body }) =>
    sharing.choose(body),
  );

  app.post("/api/sharing/known-address", { schema: { response: { 200: sharingSchema } } }, () => sharing.knowAddress());

  app.post(
    "/api/pairing/code",
    { schema: { body: z.nullish(newPairingCode), response: { 201: pairingCode } } },
    async ({ body }, reply) => {
      reply.code(201).header("cache-control", "no-store");
      const code = sharing.pairing.open(body?.role ?? "helper");
      events.send({ changed: "sharing" });
      return { ...code, addresses: sharing.pairAddresses() };
    },
  );

  app.delete("/api/pairing/code", { schema: { response: { 200: sharingSchema } } }, async () => {
    sharing.pairing.close();
    events.send({ changed: "sharing" });
    return sharing.state();
  });

  // Whoever is on the network may send this: a code and a name, and no more.
  app.post("/api/pairing", { bodyLimit: 2000, schema: { body: pairing } }, async (request, reply) => {
    const arrival = networkArrival(request.raw);
    if (!arrival)
      return sendProblem(reply, { status: 409, detail: "this machine is the owner's and needs no pairing" });
    const { code, name } = request.body;
    const found = sharing.pairing.try(code);
    events.send({ changed: "sharing" });
    if (found === "no code" || found === "wrong" || found === "locked") {
      const detail = turnedWords[found];
      return sendProblem(reply, { status: 403, detail, errors: [{ pointer: "/code", detail }] });
    }
    // Paired anew, it is still one device.
    if (request.device) await sharing.revoke(request.device.id, reply.raw);
    const { device: paired, token } = await sharing.letIn({ name, role: found, site: null });
    giveCookie(reply, token, arrival);
    reply.header("cache-control", "no-store");
    const { id, role } = paired;
    return reply.code(201).send({ device: { id, name: paired.name, role }, secure: arrival.encrypted, sharing: true });
  });

  app.get("/api/devices", { schema: { response: { 200: z.array(device) } } }, () => store.devices.all());

  app.post("/api/devices", { schema: { body: newSensor, response: { 201: sensorLetIn } } }, async ({ body }, reply) => {
    reply.code(201).header("cache-control", "no-store");
    return sharing.letIn({ ...body, role: "sensor" });
  });

  app.delete(
    "/api/devices/:id",
    { schema: { params: withId, response: { 200: device } } },
    async ({ params }, reply) => {
      const gone = await sharing.revoke(params.id, reply.raw);
      if (!gone) throw new NotFound(`no device ${params.id} is let in`);
      return gone;
    },
  );

  app.get("/coatwright-authority.crt", { schema: { hide: true } }, async (_request, reply) => {
    const der = sharing.authorityDer();
    if (!der) throw new NotFound("this shop has no authority of its own just now");
    return reply.type("application/x-x509-ca-cert").header("cache-control", "no-store").send(Buffer.from(der));
  });
  done();
};

const turnedWords = {
  "no code": "no code is open just now; ask for a new one at the shop's own machine, it lasts five minutes",
  wrong: "this is not the code that the shop shows; read it again",
  locked: "that was one wrong try too many, and the code is void; ask for a new one at the shop's own machine",
};
