/** Photographs, and the pictures made from them: the file by its content hash, and one row that describes it. */
import type { Kysely } from "kysely";
import type { Photo } from "../api/photo.ts";
import type { ArrivedFile, PhotoFiles } from "./photo-files.ts";
import type { PhotoRow, Tables } from "./tables.ts";

/** What can be said of a picture once its file was read. */
export type PictureFacts = Pick<Photo, "mediaType" | "widthPx" | "heightPx" | "takenAt">;

export type PhotoStore = {
  files: PhotoFiles;
  find(hash: string): Promise<Photo | null>;
  /** Keeps an arrived file. The same picture sent twice is kept once. */
  add(file: ArrivedFile, facts: PictureFacts, addedAt: string): Promise<Photo>;
};

export function photoStore(db: Kysely<Tables>, files: PhotoFiles): PhotoStore {
  const find = async (hash: string) => {
    const row = await db.selectFrom("photo").selectAll().where("hash", "=", hash).executeTakeFirst();
    return row ? photoOf(row) : null;
  };
  return {
    files,
    find,
    async add(file, facts, addedAt) {
      const known = await find(file.hash);
      if (known) {
        await files.discard(file);
        return known;
      }
      // The file first: a row always has its file, while a file without a row is only unused.
      await files.keep(file, facts.mediaType);
      const row = {
        hash: file.hash,
        media_type: facts.mediaType,
        bytes: file.bytes,
        width_px: facts.widthPx,
        height_px: facts.heightPx,
        taken_at: facts.takenAt,
        added_at: addedAt,
      };
      await db
        .insertInto("photo")
        .values(row)
        .onConflict((same) => same.column("hash").doNothing())
        .execute();
      return photoOf(row);
    },
  };
}

function photoOf(row: PhotoRow): Photo {
  return {
    hash: row.hash,
    // Went through the schema on its way in.
    mediaType: row.media_type as Photo["mediaType"],
    bytes: row.bytes,
    widthPx: row.width_px,
    heightPx: row.height_px,
    takenAt: row.taken_at,
  };
}
