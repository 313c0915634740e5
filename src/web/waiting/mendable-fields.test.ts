import { expect, test } from "vitest";
import type { NewObservation } from "../../api/observation.ts";
import { mendableFields, mended } from "./mendable-fields.ts";

const look: NewObservation = {
  id: "3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11",
  by: "Ada",
  corrects: null,
  body: {
    kind: "look",
    coupon: "7",
    face: "front",
    when: { date: "2027-03-01" },
    rustedPercent: 12,
    edgePercent: null,
    how: "eye",
    blind: true,
    measurement: null,
  },
};

test("what a hand can mend: text and numbers, also inside", () =>
  expect(mendableFields(look).map(({ label, text }) => [label, text])).toEqual([
    ["coupon", "7"],
    ["face", "front"],
    ["date", "2027-03-01"],
    ["rusted, %", "12"],
  ]));

const withText = (label: string, text: string) =>
  mendableFields(look).map((field) => (field.label === label ? { ...field, text } : field));

test("a date is mended, the rest and the id stay", () =>
  expect(mended(look, withText("date", "2026-03-01"))).toEqual({
    ...look,
    body: { ...look.body, when: { date: "2026-03-01" } },
  }));
test("a decimal comma is a number", () =>
  expect(mended(look, withText("rusted, %", "12,5"))).toMatchObject({ body: { rustedPercent: 12.5 } }));
test.each([
  ["rusted, %", "much"],
  ["date", "yesterday"],
])("%s %j is refused", (label, text) => expect(mended(look, withText(label, text))).toBeNull());

test.each([
  [{ massG: 12.5 }, "mass, g"],
  [{ thicknessUm: 60 }, "thickness, µm"],
  [{ steelTempC: 21 }, "steel temp, °C"],
  [{ leftDays: 3 }, "left days"],
  [{ tape: { name: "any" } }, "tape name"],
])("%j is asked for as “%s”", (part, label) =>
  expect(mendableFields({ ...look, body: { kind: "look", ...part } as never }).map((field) => field.label)).toEqual([
    label,
  ]),
);
