import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { NoAnswer, Refused } from "../shop/ask.ts";
import { sendInOrder } from "./send-in-order.ts";
import type { WaitingItem } from "./waiting-item.ts";

const item = (id: string): WaitingItem => ({
  kind: "observation",
  id,
  writtenAt: "2026-03-01T10:00:00Z",
  refused: null,
  trial: "t",
  observation: { id, by: "Ada", corrects: null, body: { kind: "unblinding" } },
});

/** What happens to one try: the request is lost, the answer is lost, it arrives, it is refused, the server is busy. */
type Fate = "lost" | "answer lost" | "arrives" | "refused" | "busy";

const said = (status: number) => new Refused({ type: "about:blank", title: "no", status });

/** A device and a shop that drops repeats, as the real ones do; each try meets the next fate, then all goes well. */
function deviceAndShop(ids: readonly string[], fates: readonly Fate[]) {
  let waiting = ids.map(item);
  const ahead = [...fates];
  const shop: string[] = [];
  const sender = {
    items: async () => waiting,
    deliver: async ({ id }: WaitingItem) => {
      const fate = ahead.shift() ?? "arrives";
      if (fate === "lost") throw new NoAnswer();
      if (fate === "refused") throw said(422);
      if (fate === "busy") throw said(429);
      if (!shop.includes(id)) shop.push(id);
      if (fate === "answer lost") throw new NoAnswer();
    },
    stored: async ({ id }: WaitingItem) => {
      waiting = waiting.filter((one) => one.id !== id);
    },
    refused: async ({ id }: WaitingItem, problem: { status: number; type: string; title: string }) => {
      waiting = waiting.map((one) => (one.id === id ? { ...one, refused: problem } : one));
    },
  };
  return { sender, shop, left: () => waiting, ahead };
}

describe("what waits is sent in order", () => {
  test("nothing waits", async () => expect(await sendInOrder(deviceAndShop([], []).sender)).toBe("all sent"));

  test("the network goes after the first: the rest waits, in order", async () => {
    const { sender, shop, left } = deviceAndShop(["a", "b", "c"], ["arrives", "lost"]);
    expect(await sendInOrder(sender)).toBe("away");
    expect(shop).toEqual(["a"]);
    expect(left().map(({ id }) => id)).toEqual(["b", "c"]);
  });

  test("what is refused holds up nothing and is not sent again by itself", async () => {
    const { sender, shop, left } = deviceAndShop(["a", "b", "c"], ["refused"]);
    expect(await sendInOrder(sender)).toBe("all sent");
    expect(await sendInOrder(sender)).toBe("all sent");
    expect(shop).toEqual(["b", "c"]);
    expect(left()).toMatchObject([{ id: "a", refused: { status: 422 } }]);
  });

  test.each([401, 408, 429, 503])("an answer %d is no refusal of the item", async (status) => {
    const { sender, left } = deviceAndShop(["a"], []);
    expect(await sendInOrder({ ...sender, deliver: () => Promise.reject(said(status)) })).toBe("away");
    expect(left()).toMatchObject([{ id: "a", refused: null }]);
  });

  test("whatever the network does, each is stored once, in its order", async () => {
    const fate = fc.constantFrom<Fate>("lost", "answer lost", "arrives", "busy");
    await fc.assert(
      fc.asyncProperty(fc.nat(12), fc.array(fate, { maxLength: 30 }), async (n, fates) => {
        const ids = Array.from({ length: n }, (_, at) => String(at));
        const { sender, shop, left } = deviceAndShop(ids, fates);
        // Each round ends with the first silence; there are no more silences than fates.
        for (let round = 0; round <= fates.length; round++) await sendInOrder(sender);
        expect(shop).toEqual(ids);
        expect(left()).toEqual([]);
      }),
    );
  });
});
