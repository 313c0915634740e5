/** Trials and what is written down about them. */
import { randomUUID } from "node:crypto";
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { newObservation, observation } from "../../api/observation.ts";
import { newTrial } from "../../api/plan.ts";
import { type TrialDocument, trialDocument, trialSummary } from "../../api/shop.ts";
import { InputError } from "../../core/input-error.ts";
import { drawPlan } from "../../core/trial/draw-plan.ts";
import { requireAcceptable } from "../../core/trial/observation-rules.ts";
import { requirePlan } from "../../core/trial/plan-rules.ts";
import type { Observation } from "../../core/trial/trial-record.ts";
import type { ShopStore } from "../../store/open-shop.ts";
import type { TrialWithObservations } from "../../store/trial-store.ts";
import { NotFound } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";
import { requireOwnersAct } from "../sharing/owners-acts.ts";
import { takenIn } from "../written-on-device.ts";

const trialId = z.strictObject({ id: z.uuid() });
const observationId = z.strictObject({ id: z.uuid(), observationId: z.uuid() });

export const trialRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, events, now }, done) => {
  app.get("/api/trials", { schema: { response: { 200: z.array(trialSummary) } } }, () => store.trials.list());

  app.post("/api/trials", { schema: { body: newTrial, response: { 201: trialDocument } } }, async ({ body }, reply) => {
    const plan = drawPlan(body.draft);
    requirePlan(plan);
    const at = now().toISOString();
    const first = {
      id: randomUUID(),
      recordedAt: at,
      by: body.by,
      corrects: null,
      body: { kind: "plan", plan },
    } as const;
    const trial = await store.trials.start({ id: body.id, name: body.name, createdAt: at }, [first]);
    events.send({ changed: "trial", id: trial.id });
    reply.code(201);
    return document(store, trial);
  });

  app.get("/api/trials/:id", { schema: { params: trialId, response: { 200: trialDocument } } }, async ({ params }) =>
    document(store, await findTrial(store, params.id)),
  );

  app.post(
    "/api/trials/:id/observations",
    { schema: { params: trialId, body: newObservation, response: { 201: observation } } },
    async ({ params, body, device }, reply) => {
      await requireMeasurement(store, body.body);
      const sent = takenIn(body, device, now());
      const stored = await store.trials.record(params.id, sent, (trial) => {
        requireOwnersAct(device, sent, trial.observations);
        requireAcceptable(trial, sent);
      });
      if (!stored) throw noTrial(params.id);
      events.send({ changed: "trial", id: params.id });
      reply.code(201);
      return stored;
    },
  );

  app.get(
    "/api/trials/:id/observations/:observationId/history",
    { schema: { params: observationId, response: { 200: z.array(observation) } } },
    async ({ params }) => {
      const { observations } = await findTrial(store, params.id);
      const history = historyOf(observations, params.observationId);
      if (history.length === 0) throw new NotFound(`no observation ${params.observationId} in trial ${params.id}`);
      return history;
    },
  );
  done();
};

export async function findTrial(store: ShopStore, id: string): Promise<TrialWithObservations> {
  const trial = await store.trials.find(id);
  if (!trial) throw noTrial(id);
  return trial;
}

function noTrial(id: string) {
  return new NotFound(`no trial ${id} in this shop`);
}

/** The trial with the measurements that its looks rest on, corrected looks too. */
async function document(store: ShopStore, trial: TrialWithObservations): Promise<TrialDocument> {
  const ids = trial.observations.flatMap(({ body }) =>
    body.kind === "look" && body.measurement !== null ? [body.measurement] : [],
  );
  return { ...trial, measurements: await store.measurements.findAll([...new Set(ids)]) };
}

async function requireMeasurement(store: ShopStore, body: Observation["body"]): Promise<void> {
  if (body.kind !== "look" || body.measurement === null) return;
  if (!(await store.measurements.find(body.measurement)))
    throw new InputError("measurement", body.measurement, "the id of a measurement in this shop");
}

/** From the first wording to the newest, whichever of them was asked for. */
function historyOf(observations: readonly Observation[], id: string): Observation[] {
  const asked = observations.find((one) => one.id === id);
  if (!asked) return [];
  const history = [asked];
  for (let one: Observation | undefined = asked; one; ) {
    const earlier: string | undefined = one.corrects?.id;
    one = observations.find((other) => other.id === earlier);
    if (one) history.unshift(one);
  }
  for (let one: Observation | undefined = asked; one; ) {
    const { id: replaced }: Observation = one;
    one = observations.find((other) => other.corrects?.id === replaced);
    if (one) history.push(one);
  }
  return history;
}
