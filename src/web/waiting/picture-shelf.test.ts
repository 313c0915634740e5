import { expect, test } from "vitest";
import { pictureShelf } from "./picture-shelf.ts";

function shelf() {
  const open = new Set<string>();
  let made = 0;
  const pictures = pictureShelf({
    address: () => {
      const address = `blob:${++made}`;
      open.add(address);
      return address;
    },
    letGo: (address) => open.delete(address),
  });
  return { ...pictures, open };
}
const file = new Blob([]);

test("a hundred pictures taken and shown one after another keep only the newest few in reach", () => {
  const { put, hold, open } = shelf();
  for (let at = 0; at < 100; at++) {
    put(`${at}`, file);
    hold(`${at}`)();
  }
  expect([...open]).toEqual(["blob:98", "blob:99", "blob:100"]);
});

test("what is shown stays, however many come after it, until nobody shows it", () => {
  const { put, hold, addressOf, open } = shelf();
  put("shown", file);
  const [one, another] = [hold("shown"), hold("shown")];
  for (let at = 0; at < 10; at++) put(`${at}`, file);
  one();
  expect(addressOf("shown")).toBe("blob:1");
  another();
  expect(addressOf("shown")).toBeUndefined();
  expect(open.size).toBe(3);
});

test("the same picture has one address", () => {
  const { put, addressOf, open } = shelf();
  put("a", file);
  put("a", file);
  expect([addressOf("a"), open.size]).toEqual(["blob:1", 1]);
});
