/**
 * Photographs that arrive in pieces: `uploads/ID.part` grows, `ID.json` says what it is to become. How long the file is
 * says how far it is, so that a killed server knows it again.
 */
import { createHash } from "node:crypto";
import { mkdir, open, readdir, readFile, rename, rm, stat, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { NewUpload } from "../api/upload.ts";

export type Upload = NewUpload & { id: string; device: string };

/** Of one device; the one that rested longest makes room. Nothing is lost: the device still has the photograph. */
export const openOfOneDevice = 4;
/** What nobody went on with is given up. */
const abandonedMs = 7 * 86_400_000;

export type UploadFiles = {
  /** Begins it, or finds it again: the same content from the same device is the same upload. */
  open(wanted: NewUpload & { device: string }, now: Date): Promise<Upload>;
  find(id: string): Promise<Upload | null>;
  pathOf(upload: Upload): string;
  offset(upload: Upload): Promise<number>;
  /** Adds a piece that begins at `offset`; one that is there already changes nothing. Returns how far it is. */
  add(upload: Upload, piece: { offset: number; bytes: Buffer }, now: Date): Promise<number>;
  discard(upload: Upload): Promise<void>;
};

export function uploadFiles(folder: string): UploadFiles {
  const partPath = (id: string) => join(folder, `${id}.part`);
  const factsPath = (id: string) => join(folder, `${id}.json`);

  const find = async (id: string): Promise<Upload | null> => {
    const facts = await readFile(factsPath(id), "utf8").catch(absent);
    return facts === null ? null : uploadIn(facts);
  };
  const offset = async ({ id }: Upload) => (await stat(partPath(id)).catch(absent))?.size ?? 0;
  const discard = async ({ id }: Pick<Upload, "id">) => {
    await rm(factsPath(id), { force: true });
    await rm(partPath(id), { force: true });
  };

  return {
    find,
    offset,
    discard,
    pathOf: ({ id }) => partPath(id),

    async open(wanted, now) {
      const id = createHash("sha256").update(`${wanted.device} ${wanted.sha256}`).digest("hex").slice(0, 32);
      const known = await find(id);
      const isThere = (await stat(partPath(id)).catch(absent)) !== null;
      if (isThere && known?.bytes === wanted.bytes) return known;
      await mkdir(folder, { recursive: true });
      await makeRoom(wanted.device, now);
      const upload = { ...wanted, id };
      await rm(partPath(id), { force: true });
      await writeFile(partPath(id), "");
      await utimes(partPath(id), now, now);
      // In one step, so that no server killed here leaves half of what says what it is.
      await writeFile(`${factsPath(id)}.new`, JSON.stringify(upload));
      await rename(`${factsPath(id)}.new`, factsPath(id));
      return upload;
    },

    async add(upload, piece, now) {
      const at = await offset(upload);
      const has = at - piece.offset;
      if (has < 0 || has >= piece.bytes.length) return at;
      const file = await open(partPath(upload.id), "r+");
      try {
        await file.write(piece.bytes, has, piece.bytes.length - has, at);
        // Acknowledged is on the disk: the device may forget what it has sent.
        await file.datasync();
        await file.utimes(now, now);
      } finally {
        await file.close();
      }
      return piece.offset + piece.bytes.length;
    },
  };

  /** Gives up what rested too long, and of one device the longest resting above its few. */
  async function makeRoom(device: string, now: Date): Promise<void> {
    const resting: { upload: Upload; since: number }[] = [];
    for (const name of await readdir(folder)) {
      const [, id] = /^(.+)\.json$/.exec(name) ?? [];
      if (id === undefined) continue;
      const upload = await find(id);
      if (!upload) {
        await discard({ id });
        continue;
      }
      const since = (await stat(partPath(upload.id)).catch(absent))?.mtimeMs ?? 0;
      if (now.getTime() - since > abandonedMs) await discard(upload);
      else if (upload.device === device) resting.push({ upload, since });
    }
    resting.sort((one, other) => other.since - one.since);
    for (const { upload } of resting.slice(openOfOneDevice - 1)) await discard(upload);
  }
}

/** After a power cut a file may have its name and not yet its content: then nobody knows what it was to become. */
function uploadIn(facts: string): Upload | null {
  try {
    return JSON.parse(facts);
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

function absent(error: NodeJS.ErrnoException): null {
  if (error.code === "ENOENT") return null;
  throw error;
}
