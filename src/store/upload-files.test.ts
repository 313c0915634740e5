import { createHash } from "node:crypto";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { uploadFiles } from "./upload-files.ts";

const now = new Date("2026-03-01T10:00:00Z");
const content = Buffer.from("a photograph");
const wanted = {
  sha256: createHash("sha256").update(content).digest("hex"),
  bytes: content.length,
  type: "image/jpeg",
  device: "phone",
} as const;

describe("an upload after a power cut", () => {
  test("a name without content: it is begun anew", async () => {
    const folder = await temporaryFolder();
    const uploads = uploadFiles(folder);
    const { id } = await uploads.open(wanted, now);
    await writeFile(join(folder, `${id}.json`), "");
    expect(await uploads.find(id)).toBeNull();
    const again = await uploads.open(wanted, now);
    expect(again.id).toBe(id);
    expect(await uploads.add(again, { offset: 0, bytes: content }, now)).toBe(content.length);
  });

  test("another's name without content goes, and holds nobody up", async () => {
    const folder = await temporaryFolder();
    const uploads = uploadFiles(folder);
    await writeFile(join(folder, "lost.json"), '{"id":');
    await writeFile(join(folder, "lost.part"), "half");
    const { id } = await uploads.open(wanted, now);
    expect((await readdir(folder)).sort()).toEqual([`${id}.json`, `${id}.part`]);
  });

  test("a piece of which half reached the disk is gone on with from there", async () => {
    const folder = await temporaryFolder();
    const uploads = uploadFiles(folder);
    const upload = await uploads.open(wanted, now);
    await writeFile(uploads.pathOf(upload), content.subarray(0, 5));
    expect(await uploads.offset(upload)).toBe(5);
    expect(await uploads.add(upload, { offset: 0, bytes: content }, now)).toBe(content.length);
    expect(await readFile(uploads.pathOf(upload))).toEqual(content);
  });
});
