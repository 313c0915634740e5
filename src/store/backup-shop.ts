/**
 * A verified copy of a shop, also of one that a server has open. The database is copied first: every photograph it
 * names is already in its place then, and stays there, since no picture is ever changed or taken away.
 */
import { copyFile, mkdir, rename, rm } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import type { Photo } from "../api/photo.ts";
import { copyComplaints, copyDatabase, openCopy, wipeFromCopy } from "./open-database.ts";
import { hashOfFile, isFree, isThere, photoPath } from "./photo-files.ts";
import { addressSetting, sharingSetting } from "./setting-store.ts";

export type Backup = { to: string; trials: number; observations: number; photos: number; bytes: number };

/** Why no backup was made, in words for the user. */
export class BackupRefused extends Error {}

export async function backupShop(folders: { dir: string; to: string }): Promise<Backup> {
  const [dir, to] = [resolve(folders.dir), resolve(folders.to)];
  if (!(await isThere(join(dir, "shop.db"))))
    throw new BackupRefused(`${dir} holds no shop; expected a folder with shop.db in it`);
  if (!(await isFree(to))) throw new BackupRefused(`${to} is not empty; expected a new or empty folder for the backup`);
  // Made beside its place and moved there when it is proven: a half-made backup never looks like a whole one.
  const making = `${to}.unfinished`;
  await rm(making, { recursive: true, force: true });
  await mkdir(making, { recursive: true });
  try {
    await copyDatabase(join(dir, "shop.db"), join(making, "shop.db"));
    const complaints = await copyComplaints(join(making, "shop.db"));
    if (complaints.length > 0)
      throw new BackupRefused(`the database of ${dir} is damaged, no backup was made: ${complaints.join("; ")}`);
    await wipeFromCopy(join(making, "shop.db"), ofThisMachineAlone);
    const { photos, ...counts } = await contents(join(making, "shop.db"));
    let bytes = 0;
    for (const photo of photos) {
      await copyProven({ photo, from: join(dir, "photos"), to: join(making, "photos") });
      bytes += photo.bytes;
    }
    await rm(to, { recursive: true, force: true });
    await mkdir(dirname(to), { recursive: true });
    await rename(making, to);
    return { to, ...counts, photos: photos.length, bytes };
  } catch (error) {
    await rm(making, { recursive: true, force: true });
    throw error;
  }
}

/** Who is let in, and that the shop is shared, holds for the shop where it stands and for no copy of it. */
const ofThisMachineAlone = [
  { sql: "delete from device", values: [] },
  { sql: "delete from setting where name in (?, ?)", values: [sharingSetting, addressSetting] },
];

type StoredPicture = Pick<Photo, "hash" | "mediaType" | "bytes">;

/** Read from the copy, so that what is counted is what the copy holds. */
async function contents(file: string): Promise<{ trials: number; observations: number; photos: StoredPicture[] }> {
  const db = await openCopy(file);
  try {
    const count = async (table: "trial" | "observation") => {
      const row = await db
        .selectFrom(table)
        .select(({ fn }) => fn.countAll().as("rows"))
        .executeTakeFirstOrThrow();
      return Number(row.rows);
    };
    const rows = await db.selectFrom("photo").select(["hash", "media_type", "bytes"]).orderBy("hash").execute();
    return { trials: await count("trial"), observations: await count("observation"), photos: rows.map(pictureOf) };
  } finally {
    await db.destroy();
  }
}

function pictureOf(row: { hash: string; media_type: string; bytes: number }): StoredPicture {
  return { hash: row.hash, mediaType: row.media_type as Photo["mediaType"], bytes: row.bytes };
}

async function copyProven({ photo, from, to }: { photo: StoredPicture; from: string; to: string }): Promise<void> {
  const [source, copy] = [photoPath(from, photo), photoPath(to, photo)];
  if (!(await isThere(source))) throw new BackupRefused(`${source} is missing, no backup was made`);
  await mkdir(dirname(copy), { recursive: true });
  await copyFile(source, copy);
  if ((await hashOfFile(copy)) !== photo.hash)
    throw new BackupRefused(`${source} is damaged: its content is not the one its name stands for; no backup was made`);
}
