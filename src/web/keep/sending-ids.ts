/** The same words sent again keep their id, also after a reload: an answer that got lost doubles nothing. */
import { newId } from "../shop/new-id.ts";
import { forget, keep, readKept } from "./kept.ts";

export function sendingId(key: string, body: unknown): string {
  const place = `ids ${key}`;
  const kept = readKept(place);
  const words = JSON.stringify(body);
  const ids: Record<string, unknown> = typeof kept === "object" && kept !== null ? { ...kept } : {};
  const known = ids[words];
  if (typeof known === "string") return known;
  const id = newId();
  keep(place, { ...ids, [words]: id });
  return id;
}

export const forgetIds = (key: string) => forget(`ids ${key}`);
