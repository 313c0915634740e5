/** Small copies of photographs, upright and without what the camera wrote about place and time. Made once, kept aside. */
import { randomUUID } from "node:crypto";
import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Photo } from "../api/photo.ts";
import type { ShopStore } from "../store/open-shop.ts";
import { isThere } from "../store/photo-files.ts";
import { previewOf } from "./photos/read-photo.ts";

/** The path of a JPEG at most `widthPx` wide. The folder can be thrown away at any time; a backup leaves it out. */
export async function previewFile(store: ShopStore, photo: Photo, widthPx: number): Promise<string> {
  const folder = join(store.dir, "previews");
  const path = join(folder, `${photo.hash}-${widthPx}.jpg`);
  if (await isThere(path)) return path;
  const picture = await previewOf(store.photos.files.pathOf(photo), widthPx);
  await mkdir(folder, { recursive: true });
  // Under another name first: a second page that asks meanwhile never gets half of it.
  const unfinished = `${path}.${randomUUID()}`;
  await writeFile(unfinished, picture);
  await rename(unfinished, path);
  return path;
}
