/** A trial in a served shop whose coupons lie on measuring cards in rendered photographs; looks are written down as the page does. */
import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { expect } from "vitest";
import type { Measurement } from "../src/api/photo.ts";
import { madeOnce } from "./made-once.ts";
import { cleanCoupon, renderCard, rustyCoupon } from "./rendered-card.ts";
import { shedDraft } from "./test-server.ts";

export const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);

export const photoPlan = { ...shedDraft.draft, couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 } };

/** A coupon on its card, as a JPEG; 0: clean. */
export const cardPhoto = (rustedPercent: number, seed = 3): Promise<Buffer> => renderedPhoto(rustedPercent, seed);

const renderedPhoto = madeOnce(async (rustedPercent: number, seed: number): Promise<Buffer> => {
  const coupon =
    rustedPercent === 0
      ? cleanCoupon("phosphate dry")
      : rustyCoupon("phosphate dry", { rustedPercent, edgePercent: 2 * rustedPercent });
  const { rgb, widthPx, heightPx } = renderCard({
    seed,
    card: "medium",
    widthPx: 1400,
    fills: 0.6,
    tiltDeg: 4,
    coupon,
  });
  const raw = { width: widthPx, height: heightPx, channels: 3 } as const;
  return sharp(rgb, { raw }).jpeg({ quality: 92 }).toBuffer();
});

async function send(url: string, method: string, body: object): Promise<unknown> {
  const headers = { "content-type": "application/json" };
  const answer = await fetch(url, { method, headers, body: JSON.stringify(body) });
  const text = await answer.text();
  expect(answer.ok, text).toBe(true);
  return JSON.parse(text);
}

/** Four coupons of two treatments, out since three weeks. */
export async function photoTrial(url: string) {
  const id = randomUUID();
  await send(`${url}api/trials`, "POST", { ...shedDraft, id, draft: photoPlan });
  const observe = (body: object) =>
    send(`${url}api/trials/${id}/observations`, "POST", { id: randomUUID(), by: "Ines", corrects: null, body });
  const coupons = ["1", "2", "3", "4"];
  await observe({ kind: "put out", site: "shed", date: daysAgo(21), coupons });
  const look = async (coupon: string, date: string, rustedPercent: number): Promise<Measurement> => {
    const measured = await measuredOnCard(url, await cardPhoto(rustedPercent, Number(coupon)));
    const { rustedPercent: percent, edgePercent } = measured;
    const at = { kind: "look", coupon, face: "front", when: { date }, blind: true, how: "photo" };
    await observe({ ...at, rustedPercent: percent, edgePercent, measurement: measured.id });
    return measured;
  };
  return { id, observe, look };
}

async function measuredOnCard(url: string, bytes: Buffer): Promise<Measurement> {
  const form = new FormData();
  form.append("photo", new Blob([new Uint8Array(bytes)]));
  const photo = (await (await fetch(`${url}api/photos`, { method: "POST", body: form })).json()) as { hash: string };
  const { lengthMm, widthMm, thicknessMm } = photoPlan.couponSize;
  const id = randomUUID();
  await send(`${url}api/measurements`, "POST", {
    ...{ id, photo: photo.hash, cornersPx: null, sizeMm: { lengthMm, widthMm }, thicknessMm },
    ...{ edgeBandMm: photoPlan.edgeBandMm, surface: "dry and wiped" },
  });
  for (;;) {
    const job = (await (await fetch(`${url}api/jobs/${id}`)).json()) as { state: string; failure: string | null };
    if (job.state === "done") return (await fetch(`${url}api/measurements/${id}`)).json() as Promise<Measurement>;
    if (job.state !== "waiting" && job.state !== "working") throw new Error(`not measured: ${JSON.stringify(job)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
