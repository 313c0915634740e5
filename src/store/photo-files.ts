/** Picture files by content hash: `photos/ab/abcd....jpg`. A name is a proof of the bytes, so no file ever changes. */
import { createHash, randomUUID } from "node:crypto";
import { createReadStream, createWriteStream } from "node:fs";
import { access, mkdir, open, readdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { Photo } from "../api/photo.ts";

const endings: Record<Photo["mediaType"], string> = { "image/jpeg": "jpg", "image/png": "png", "image/webp": "webp" };

type Picture = Pick<Photo, "hash" | "mediaType">;

/** Where the file of that content is, or would be, below a folder of photographs. */
export function photoPath(folder: string, { hash, mediaType }: Picture): string {
  return join(folder, hash.slice(0, 2), `${hash}.${endings[mediaType]}`);
}

/** A file that has arrived whole but has no place yet. */
export type ArrivedFile = { path: string; hash: string; bytes: number };

export type PhotoFiles = {
  pathOf(picture: Picture): string;
  /** Takes a stream in, hashing as it goes; nothing of it is held in memory. The caller keeps or discards it. */
  arrive(stream: NodeJS.ReadableStream): Promise<ArrivedFile>;
  /** Moves it to its place. It has reached the disk when this returns. */
  keep(file: ArrivedFile, mediaType: Photo["mediaType"]): Promise<void>;
  discard(file: ArrivedFile): Promise<void>;
};

const incomingIn = (folder: string) => join(folder, "incoming");

/** What a killed server was still receiving was never acknowledged. Only for who holds the shop's lock. */
export async function clearIncoming(folder: string): Promise<void> {
  await rm(incomingIn(folder), { recursive: true, force: true });
  await mkdir(incomingIn(folder), { recursive: true });
}

export function photoFiles(folder: string): PhotoFiles {
  return {
    pathOf: (picture) => photoPath(folder, picture),

    async arrive(stream) {
      const path = join(incomingIn(folder), randomUUID());
      const hash = createHash("sha256");
      let bytes = 0;
      const counted = new Transform({
        transform(chunk: Buffer, _encoding, done) {
          hash.update(chunk);
          bytes += chunk.length;
          done(null, chunk);
        },
      });
      try {
        await pipeline(stream, counted, createWriteStream(path, { flags: "wx" }));
      } catch (error) {
        await rm(path, { force: true });
        throw error;
      }
      return { path, hash: hash.digest("hex"), bytes };
    },

    async keep(file, mediaType) {
      const place = photoPath(folder, { hash: file.hash, mediaType });
      const isNewFolder = (await mkdir(dirname(place), { recursive: true })) !== undefined;
      await toDisk(file.path);
      await rename(file.path, place);
      await toDisk(dirname(place));
      if (isNewFolder) await toDisk(folder);
    },

    discard: (file) => rm(file.path, { force: true }),
  };
}

/** A written file may still be only in memory, and so may its name in the folder. */
async function toDisk(path: string): Promise<void> {
  // Windows opens no folders; there the name is written with the file.
  const handle = await open(path, process.platform === "win32" ? "r+" : "r").catch((error: NodeJS.ErrnoException) => {
    if (process.platform === "win32" && (error.code === "EISDIR" || error.code === "EPERM")) return null;
    throw error;
  });
  try {
    await handle?.sync();
  } finally {
    await handle?.close();
  }
}

export async function hashOfFile(path: string): Promise<string> {
  const hash = createHash("sha256");
  await pipeline(createReadStream(path), hash);
  return hash.digest("hex");
}

export async function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** Empty, or not there at all. */
export async function isFree(folder: string): Promise<boolean> {
  const entries = await readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return [];
    throw error;
  });
  return entries.length === 0;
}
