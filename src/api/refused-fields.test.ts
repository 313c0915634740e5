import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { newObservation } from "./observation.ts";
import { planDraft } from "./plan.ts";
import { refusedFields } from "./refused-fields.ts";

function refused(schema: z.ZodMiniType, value: unknown) {
  const { error } = z.safeParse(schema, value);
  return refusedFields(error?.issues ?? [], value);
}

describe("a refused field says where it stands, what was given and what was expected", () => {
  const schema = z.strictObject({
    percent: z.optional(z.number().check(z.minimum(0), z.maximum(100))),
    size: z.optional(z.number().check(z.positive())),
    name: z.optional(z.string().check(z.minLength(1), z.maxLength(5))),
    list: z.optional(z.array(z.int()).check(z.minLength(1))),
    unit: z.optional(z.enum(["mm", "in"])),
    id: z.optional(z.uuid()),
    at: z.optional(z.iso.datetime({ offset: true })),
    "a/b~c": z.optional(z.boolean()),
  });
  test.each([
    [{ percent: 120 }, "/percent", "percent is 120; expected at most 100"],
    [{ percent: -1 }, "/percent", "percent is -1; expected at least 0"],
    [{ percent: "12" }, "/percent", 'percent is "12"; expected a number'],
    [{ size: 0 }, "/size", "size is 0; expected more than 0"],
    [{ name: "" }, "/name", 'name is ""; expected at least 1 character'],
    [{ name: "boathouse" }, "/name", 'name is "boathouse"; expected at most 5 characters'],
    [{ list: [] }, "/list", "list is []; expected at least 1 entry"],
    [{ list: [1, 2.5] }, "/list/1", "list[1] is 2.5; expected a whole number"],
    [{ unit: "yd" }, "/unit", 'unit is "yd"; expected one of "mm", "in"'],
    [{ id: "7" }, "/id", 'id is "7"; expected a UUID'],
    [{ at: "2026-05-31 08:30" }, "/at", /^at is .*; expected a date and time with its offset/],
    [{ colour: "red" }, "/colour", 'colour is "red"; expected no field of that name'],
    [{ "a/b~c": 1 }, "/a~1b~0c", /expected a boolean/],
    ["percent", "", 'the whole of it is "percent"; expected an object'],
  ])("%j", (value, pointer, detail) =>
    expect(refused(schema, value)).toEqual([
      { pointer, detail: typeof detail === "string" ? detail : expect.stringMatching(detail) },
    ]),
  );

  test("of several forms, the one that was meant", () => {
    const body = {
      kind: "look",
      coupon: "1",
      face: "front",
      when: { day: -1 },
      rustedPercent: 0,
      edgePercent: null,
      how: "eye",
      blind: true,
      measurement: null,
    };
    const id = "6f1e3c0a-52ad-4a29-9d0b-3f1d1f0e9a11";
    expect(refused(newObservation, { id, by: "Ada", corrects: null, body })).toEqual([
      { pointer: "/body/when/day", detail: "body.when.day is -1; expected at least 0" },
    ]);
  });

  test("everything that is missing, at once", () => {
    const pointers = refused(planDraft, {}).map((one) => one.pointer);
    const needed = Object.entries(planDraft.shape).filter(([, field]) => field._zod.optin !== "optional");
    expect(needed.length).toBeGreaterThan(5);
    expect(pointers).toEqual(needed.map(([key]) => `/${key}`));
  });
});
