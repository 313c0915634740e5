import { describe, expect, test } from "vitest";
import { newImport } from "../../api/import.ts";
import { askOf, type ImportForm, importOf, startImport, wishesOf, wordPercents } from "./import-form.ts";

const start = startImport("6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", "mm");

describe("what is said of a table", () => {
  test("nothing chosen, nothing wished", () =>
    expect(wishesOf(start)).toMatchObject({ dates: null, kind: null, words: null }));
  test("chosen orders; values that are tape classes", () =>
    expect(wishesOf({ ...start, dates: "dmy", kind: "tape", measured: "gloss" })).toMatchObject({
      dates: "dmy",
      kind: "ordinal",
      response: "tape class",
    }));
  test("values under a name of their own", () =>
    expect(wishesOf({ ...start, kind: "continuous", measured: " coating mass ", better: "higher" })).toMatchObject({
      kind: "continuous",
      response: "coating mass",
      better: "higher",
    }));
  test("a scale of rust is the scale of its grades; that of a tape test is none", () => {
    expect(askOf({ ...start, response: "grade", scale: "d610" })).toMatchObject({ response: "grade", scale: "d610" });
    expect(askOf({ ...start, scale: "iso2409" }).scale).toBeNull();
  });
  test("an order that is none is not taken", () => expect(wishesOf({ ...start, dates: "ydm" }).dates).toBeNull());
});

describe("words stand for percents", () => {
  test("all of them said", () => expect(wordPercents({ none: "0", edges: "1,5" })).toEqual({ none: 0, edges: 1.5 }));
  test("one still missing: none is taken", () => expect(wordPercents({ none: "0", edges: "" })).toBeNull());
  test("no words", () => expect(wordPercents({})).toBeNull());
});

describe("the trial that is asked for", () => {
  const whole: ImportForm = {
    ...start,
    text: "coupon,treatment,day,rusted_percent\n1,a,1,0",
    name: "notebook",
    control: "a",
    couponLength: "150",
    couponWidth: "100",
    couponThickness: "3",
    edgeBand: "0",
  };
  test("is what the server takes", () => {
    const { request } = importOf(whole, "Ines");
    expect(newImport.safeParse(request).success).toBe(true);
    expect(request).toMatchObject({ ask: { control: "a", family: "control", margin: null }, edgeBandMm: 0 });
  });
  test("without a control every pair is compared", () =>
    expect(importOf({ ...whole, control: "" }, "Ines").request?.ask).toMatchObject({ control: null, family: "pairs" }));
  test("treated separately only when the user says so", () => {
    expect(importOf(whole, "Ines").request?.ask.treatedSeparately).toBe(false);
    expect(importOf({ ...whole, separately: "yes" }, "Ines").request?.ask.treatedSeparately).toBe(true);
  });
  test("what is missing is named; no size is supposed", () =>
    expect(Object.keys(importOf(start, " ").missing).sort()).toEqual([
      "/by",
      "/couponSize/lengthMm",
      "/couponSize/thicknessMm",
      "/couponSize/widthMm",
      "/edgeBandMm",
      "/name",
    ]));
});
