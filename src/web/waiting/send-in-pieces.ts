/** Sends a large photograph in pieces, from where the shop has it: a broken line costs one piece, not the whole. */
import type { Photo } from "../../api/photo.ts";
import { pieceBytes, type UploadState, uploadState } from "../../api/upload.ts";
import type { Sending } from "../inspect/send-photo.ts";
import { ask, json, NoAnswer, Refused } from "../shop/ask.ts";
import { contentHashOf } from "./content-hash.ts";

/** A piece that takes longer is sent again: below 17 kB/s nobody waits for photographs. */
const hangsMs = 30_000;

/** A small one goes whole. */
export const goesInPieces = (file: Blob): boolean => file.size > pieceBytes;

export async function sendInPieces({ file, progress, signal }: Sending): Promise<Photo> {
  const upload = { sha256: await contentHashOf(file), bytes: file.size, type: file.type };
  const asked = (path: string, init: RequestInit) =>
    ask(uploadState, path, { ...init, signal: AbortSignal.any([signal, AbortSignal.timeout(hangsMs)]) });
  let state: UploadState = await asked("/api/uploads", json("POST", upload));
  while (!state.photo) {
    progress(state.offset / file.size);
    state = await asked(`/api/uploads/${state.id}?offset=${state.offset}`, {
      method: "PATCH",
      headers: { "content-type": "application/octet-stream" },
      body: file.slice(state.offset, state.offset + pieceBytes),
    }).catch(givenUp);
  }
  progress(1);
  return state.photo;
}

/** Another window sent it meanwhile, or the shop gave it up: it is begun anew at the next try. */
function givenUp(error: unknown): never {
  throw error instanceof Refused && error.problem.status === 404 ? new NoAnswer() : error;
}
