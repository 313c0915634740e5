/** A folder of the test's own, gone when it ends. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";

export async function temporaryFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "coatwright-test-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true, maxRetries: 3 }));
  return folder;
}
