/** The API over a real shop in a folder of the test's own, without a port: asked by `inject`. */
import { randomUUID } from "node:crypto";
import { onTestFinished } from "vitest";
import type { NewObservation } from "../src/api/observation.ts";
import type { NewTrial } from "../src/api/plan.ts";
import { eventHub } from "../src/server/event-hub.ts";
import { jobQueue } from "../src/server/job-queue.ts";
import type { Measurer } from "../src/server/measure-pool.ts";
import { sharingOf } from "../src/server/sharing/sharing.ts";
import { shopApp } from "../src/server/shop-app.ts";
import { openShop } from "../src/store/open-shop.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const noMeasurer: Measurer = {
  run: () => Promise.reject(new Error("this test measures nothing")),
  adapt: () => Promise.reject(new Error("this test measures nothing")),
  close: async () => {},
};

export async function testServer({ measurer = noMeasurer, now = () => new Date() } = {}) {
  const store = await openShop(await temporaryFolder());
  const events = eventHub();
  const jobs = jobQueue({ atOnce: 1, changed: ({ id }) => events.send({ changed: "job", id }) });
  const sharing = sharingOf({ store, now, changed: () => {} }, { host: "127.0.0.1", port: 0 });
  const app = await shopApp({ store, events, jobs, measurer, now, openDemo: null, sharing }, "no page in these tests");
  onTestFinished(async () => {
    events.close();
    await jobs.close();
    await app.close();
    await store.close();
  });
  const post = async (url: string, payload: object) => {
    const { statusCode, body } = await app.inject({ method: "POST", url, payload });
    return { status: statusCode, json: JSON.parse(body) };
  };
  const get = async (url: string) => {
    const { statusCode, body } = await app.inject({ url });
    return { status: statusCode, json: JSON.parse(body) };
  };
  return {
    app,
    store,
    post,
    get,
    /** A new trial: 2 treatments x 2 coupons, so coupons 1 to 4. */
    startTrial: async () => {
      const id = randomUUID();
      await post("/api/trials", { ...shedDraft, id });
      return { id, observe: (one: NewObservation) => post(`/api/trials/${id}/observations`, one) };
    },
  };
}

export const shedDraft: Omit<NewTrial, "id"> = {
  name: "shed",
  by: "Ada",
  draft: {
    question: "Does wax hold off rust longer than oil?",
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    treatments: (["oil", "wax"] as const).map((name) => ({
      name,
      role: name === "oil" ? "control" : "finish",
      coupons: 2,
      route: [{ name, treated: "alone" }],
    })),
    blocks: 1,
    couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
    edgeBandMm: 5,
    rustThresholdPercent: 0.01,
    lookDays: [1, 7],
    rackColumns: 4,
    sparesOfEach: 0,
    seed: 7,
  },
};
