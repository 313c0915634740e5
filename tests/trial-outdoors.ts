/** A trial of four coupons that have hung in the shed for a week. */
import { randomUUID } from "node:crypto";
import { expect } from "vitest";
import { shedDraft } from "./test-server.ts";

export async function trialOutdoors(url: string): Promise<string> {
  const id = randomUUID();
  const post = async (path: string, body: object) => {
    const answer = await fetch(`${url}api/${path}`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
    expect(answer.status, await answer.clone().text()).toBe(201);
  };
  await post("trials", { ...shedDraft, id });
  const date = new Date(Date.now() - 7 * 86_400_000).toISOString().slice(0, 10);
  const body = { kind: "put out", site: "shed", date, coupons: ["1", "2", "3", "4"] };
  await post(`trials/${id}/observations`, { id: randomUUID(), by: "Ada", corrects: null, body });
  return id;
}
