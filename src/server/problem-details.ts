/** Every error leaves as RFC 9457 problem details: what was given, what was expected, and where it stood. */
import { STATUS_CODES } from "node:http";
import type { FastifyError, FastifyReply, FastifyRequest, FastifySchemaCompiler } from "fastify";
import * as z from "zod/mini";
import { pointerOf, type RefusedField, refusedFields } from "../api/refused-fields.ts";
import type { Problem } from "../api/shop.ts";
import { InputError } from "../core/input-error.ts";
import { Conflict } from "../store/conflict.ts";

/** For what a face sends about a trial; routes that take more say so. */
export const bodyLimitBytes = 2_000_000;

/** What was asked for is not here. */
export class NotFound extends Error {}

/** More bytes than are taken in at once. */
export class TooLarge extends Error {
  readonly statusCode = 413;
  constructor(what: string, limitBytes: number) {
    super(`${what} is too large; expected at most ${limitBytes / 1e6} MB`);
  }
}

/** Fields of a request that are refused, each with its own words. */
export class InvalidRequest extends Error {
  readonly fields: RefusedField[];
  constructor(fields: RefusedField[]) {
    super(fields.map((one) => one.detail).join("; "));
    this.fields = fields;
  }
}

/** Checks a request against its zod schema, and keeps the refused value for the message. */
export const validatorCompiler: FastifySchemaCompiler<z.core.$ZodType> =
  ({ schema }) =>
  (data) => {
    const { error, data: value } = z.safeParse(schema, data);
    return error ? { error: new InvalidRequest(refusedFields(error.issues, data)) } : { value };
  };

export function answerProblem(error: FastifyError | Error, request: FastifyRequest, reply: FastifyReply) {
  const isBodyLimit = "code" in error && error.code === "FST_ERR_CTP_BODY_TOO_LARGE";
  const problem = problemOf(
    isBodyLimit ? new TooLarge("what was sent", request.routeOptions.bodyLimit ?? bodyLimitBytes) : error,
    request.body,
  );
  // Who went away in the middle of sending, or was sent away, is no fault of the server's.
  if (problem.status >= 500 && !request.raw.aborted) request.log.error(error);
  return sendProblem(reply, problem);
}

export function sendProblem(reply: FastifyReply, problem: Omit<Problem, "type" | "title">) {
  const title = STATUS_CODES[problem.status] ?? "Error";
  return reply
    .code(problem.status)
    .type("application/problem+json")
    .serializer((value: unknown) => JSON.stringify(value))
    .send({ type: "about:blank", title, ...problem } satisfies Problem);
}

function problemOf(error: FastifyError | Error, body: unknown): Omit<Problem, "type" | "title"> {
  const { message: detail } = error;
  if (error instanceof InvalidRequest) return { status: 422, detail, errors: error.fields };
  if (error instanceof InputError) return { status: 422, detail, errors: [{ pointer: place(error, body), detail }] };
  if (error instanceof Conflict) return { status: 409, detail, errors: [{ pointer: place(error, body), detail }] };
  if (error instanceof NotFound) return { status: 404, detail };
  const status = "statusCode" in error ? (error.statusCode ?? 500) : 500;
  // What broke inside is for the log, not for the network.
  if (status >= 500) return { status, detail: "Something broke in the server; its log says what." };
  return { status, detail };
}

/**
 * Where in the request an argument stands. A rule names it from its own point of view ("when.date" of a look), so it
 * is looked for at the top first and then one level down ("body.when.date").
 */
function place({ argument }: { argument: string }, body: unknown): string {
  const path = argument.split(/[.[\]]+/).filter((key) => key !== "");
  const first = path[0] ?? "";
  if (holds(body, first)) return pointerOf(path);
  const below = Object.entries(isObject(body) ? body : {}).find(([, inner]) => holds(inner, first));
  return pointerOf(below ? [below[0], ...path] : path);
}

function holds(value: unknown, key: string): boolean {
  return isObject(value) && Object.hasOwn(value, key);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
