import { describe, expect, test } from "vitest";
import { startImport, wishesOf, wordPercents } from "./import-form.ts";

describe("what is said of a table", () => {
  test("nothing chosen, nothing wished", () =>
    expect(wishesOf(startImport(""))).toMatchObject({ dates: null, scale: null, words: null }));
  test("chosen orders and scales", () =>
    expect(wishesOf({ ...startImport(""), dates: "dmy", scale: "iso4628" })).toMatchObject({
      dates: "dmy",
      scale: "iso4628",
    }));
  test("an order that is none is not taken", () =>
    expect(wishesOf({ ...startImport(""), dates: "ydm" }).dates).toBeNull());
});

describe("words stand for percents", () => {
  test("all of them said", () => expect(wordPercents({ none: "0", edges: "1,5" })).toEqual({ none: 0, edges: 1.5 }));
  test("one still missing: none is taken", () => expect(wordPercents({ none: "0", edges: "" })).toBeNull());
  test("no words", () => expect(wordPercents({})).toBeNull());
});
