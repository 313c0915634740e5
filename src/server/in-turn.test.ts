import { expect, test } from "vitest";
import { turns } from "./in-turn.ts";

const soon = () => new Promise((resolve) => setTimeout(resolve, 0));

test("only so many have a place; the others get theirs in order, and one given back twice counts once", async () => {
  const places = turns(2);
  const got: number[] = [];
  const takes = [1, 2, 3, 4].map((one) =>
    places.take().then((giveBack) => {
      got.push(one);
      return giveBack;
    }),
  );
  await soon();
  expect(got).toEqual([1, 2]);
  const first = await takes[0]!;
  first();
  first();
  await soon();
  expect(got).toEqual([1, 2, 3]);
  (await takes[1]!)();
  await soon();
  expect(got).toEqual([1, 2, 3, 4]);
});
