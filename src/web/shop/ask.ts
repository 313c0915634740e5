/** Questions to the server. What comes back is checked by the shared schemas; what is refused keeps its words. */
import type * as z from "zod/mini";
import { type Problem, problem } from "../../api/shop.ts";
import { keptAtHeader } from "../offline/kept-answer.ts";
import { heardClock } from "./clock-skew.ts";
import { shopAnswered, shopWasSilent, shownFromKept } from "./contact.ts";
import { heardStatus } from "./let-in.ts";

/** The server understood and said no. */
export class Refused extends Error {
  readonly problem: Problem;
  constructor(said: Problem) {
    super(said.detail ?? said.title);
    this.name = "Refused";
    this.problem = said;
  }
}

/** Nobody answered: the server is down or the network is away. */
export class NoAnswer extends Error {
  constructor() {
    super("The workshop's server does not answer. What you typed is kept on this device.");
    this.name = "NoAnswer";
  }
}

export async function ask<Schema extends z.ZodMiniType>(
  schema: Schema,
  path: string,
  init: RequestInit = {},
): Promise<z.infer<Schema>> {
  const response = await answerOf(path, init);
  return schema.parse(await response.json());
}

/** Where the answer's content does not matter, only that it was taken. */
export async function tell(path: string, init: RequestInit): Promise<void> {
  await answerOf(path, init);
}

/** A value as a JSON request. */
export function json(method: "POST" | "PUT", value: unknown): RequestInit {
  return { method, headers: { "content-type": "application/json" }, body: JSON.stringify(value) };
}

async function answerOf(path: string, init: RequestInit): Promise<Response> {
  const askedAt = Date.now();
  const response = await fetch(path, init).catch((failure: unknown) => {
    // An aborted request is the page's own doing, not silence.
    if (failure instanceof DOMException && failure.name === "AbortError") throw failure;
    shopWasSilent();
    throw new NoAnswer();
  });
  const keptAt = response.headers.get(keptAtHeader);
  if (keptAt === null) heardStatus(response.status);
  if (keptAt === null) heardClock(response, askedAt);
  if (keptAt === null) shopAnswered();
  else shownFromKept(keptAt);
  if (!response.ok) throw new Refused(await problemOf(response));
  return response;
}

async function problemOf(response: Response): Promise<Problem> {
  const said = problem.safeParse(await response.json().catch(() => null));
  if (said.success) return said.data;
  return { type: "about:blank", title: `The server answered ${response.status}`, status: response.status };
}
