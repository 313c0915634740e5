/** What was written down before there was this tool: a plain table becomes a trial, all of it or nothing. */
import { randomUUID } from "node:crypto";
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { importedTrial, type NewImport, newImport } from "../../api/import.ts";
import { readPlainTable } from "../../api/plain-table.ts";
import { maxTableBytes } from "../../api/plain-table-text.ts";
import { requireTrial } from "../../core/trial/observation-rules.ts";
import type { PlainTable } from "../../core/trial/plain-table.ts";
import { trialFromTable } from "../../core/trial/trial-from-table.ts";
import { InvalidRequest } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";

export const importRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, events, now }, done) => {
  app.post(
    "/api/import",
    // A text in JSON is longer than itself: each line end and each quote takes two bytes.
    { bodyLimit: 2 * maxTableBytes, schema: { body: newImport, response: { 201: importedTrial } } },
    async ({ body }, reply) => {
      // Sent again, it is made as of the first time, and recognised as the same.
      const known = await store.trials.find(body.id);
      const importedAt = known?.createdAt ?? now().toISOString();
      const { plan, observations } = trialFromTable(tableOf(body), body.ask, body);
      const bodies = [{ by: body.by, body: { kind: "plan", plan } as const }, ...observations];
      const all = bodies.map((one) => ({ id: randomUUID(), recordedAt: importedAt, corrects: null, ...one }));
      requireTrial({ id: body.id, name: body.name, observations: all });
      const twin = known || body.again ? null : await store.trials.begunWith(all);
      if (twin)
        throw new InvalidRequest([
          { pointer: "/again", detail: `This very table is here already, as the trial “${twin.name}”.` },
        ]);
      await store.trials.start({ id: body.id, name: body.name, createdAt: importedAt }, all);
      events.send({ changed: "trial", id: body.id });
      reply.code(201);
      return { id: body.id, coupons: plan.places.length, observations: observations.length };
    },
  );
  done();
};

/** The page has shown all this before it sends the table; whoever sends it unseen hears it here. */
function tableOf({ text, reading }: NewImport): PlainTable {
  const { table, problems, questions } = readPlainTable(text, reading);
  if (table) return table;
  throw new InvalidRequest([
    ...problems.map(({ row, column, value, expected }) => ({
      pointer: "/text",
      detail: `row ${row}${column === null ? "" : `, ${column}`}: ${value}; expected ${expected}`,
    })),
    ...questions.map(({ about, question, answers }) => ({
      pointer: `/reading/${about}`,
      detail: answers.length > 0 ? `${question} (${answers.join(", ")})` : question,
    })),
  ]);
}
