import { type ChildProcess, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import { beforeAll, describe, expect, onTestFinished, test } from "vitest";
import { look, putOut, written } from "../../tests/shed-trial.ts";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { shedDraft } from "../../tests/test-server.ts";
import type { NewObservation } from "../api/observation.ts";
import { openShop } from "../store/open-shop.ts";

const writes = 50;
const killedAfter = 20;

const root = fileURLToPath(new URL("../..", import.meta.url));
/** Inside the project, so that a process started from there finds its packages. */
const built = join(root, "test-artefacts", "killed-server");

beforeAll(() =>
  build({
    configFile: false,
    root,
    logLevel: "error",
    build: { ssr: "src/server/start-server.ts", outDir: built, emptyOutDir: true },
  }),
);

/** A server in a process of its own, so that it can be killed like one. */
async function serve(shopDir: string): Promise<{ url: string; child: ChildProcess }> {
  const script = `
    import { startServer } from ${JSON.stringify(pathToFileURL(join(built, "start-server.js")).href)};
    console.log((await startServer({ shopDir: ${JSON.stringify(shopDir)}, port: 0 })).url);`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", script], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  onTestFinished(() => void child.kill("SIGKILL"));
  const [url] = await once(createInterface({ input: child.stdout }), "line");
  return { url: String(url), child };
}

async function post(url: string, body: object): Promise<void> {
  const headers = { "content-type": "application/json" };
  const answer = await fetch(url, { method: "POST", headers, body: JSON.stringify(body) });
  if (answer.status !== 201) throw new Error(await answer.text());
}

describe("a server killed in the middle of its work", () => {
  test(`loses nothing of ${writes} writes that it had acknowledged`, { timeout: 60_000 }, async () => {
    const dir = join(await temporaryFolder(), "shop");
    const { url, child } = await serve(dir);
    const trial = randomUUID();
    await post(`${url}api/trials`, { ...shedDraft, id: trial });
    const address = `${url}api/trials/${trial}/observations`;
    await post(address, written(putOut(["1"], "2026-04-01")));

    const acknowledged: NewObservation[] = [];
    const sent = Array.from({ length: writes }, (_, n) => written(look("1", "2026-04-02", n)));
    const answers = sent.map(async (one) => {
      await post(address, one);
      acknowledged.push(one);
      if (acknowledged.length === killedAfter) child.kill("SIGKILL");
    });
    const outcomes = await Promise.allSettled(answers);
    if (child.exitCode === null && child.signalCode === null) await once(child, "exit");
    // Otherwise it was not killed in the middle, and this test shows nothing.
    expect(outcomes.some((one) => one.status === "rejected")).toBe(true);

    const shop = await openShop(dir);
    const kept = (await shop.trials.find(trial))?.observations ?? [];
    await shop.close();
    expect(acknowledged.length).toBeGreaterThanOrEqual(killedAfter);
    for (const { id, body } of acknowledged) expect(kept.find((one) => one.id === id)?.body).toEqual(body);

    // The page sends again what was not acknowledged; what had arrived after all is not doubled.
    const again = await serve(dir);
    for (const one of sent) await post(`${again.url}api/trials/${trial}/observations`, one);
    const whole = await (await fetch(`${again.url}api/trials/${trial}`)).json();
    expect(whole.observations).toHaveLength(2 + writes);
  });
});
