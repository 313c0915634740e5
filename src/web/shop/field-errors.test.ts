import { describe, expect, test } from "vitest";
import { NoAnswer, Refused } from "./ask.ts";
import { errorAt, otherErrors } from "./field-errors.ts";

const refused = new Refused({
  type: "about:blank",
  title: "Refused",
  status: 422,
  errors: [
    { pointer: "/draft/blocks", detail: "0; expected 1 or more" },
    { pointer: "/draft/treatments/2/name", detail: "empty; expected a name" },
  ],
});

describe("errors beside their fields", () => {
  test("a field shows its own and those inside it", () => {
    expect(errorAt(refused, "/draft/blocks")).toBe("0; expected 1 or more");
    expect(errorAt(refused, "/draft/treatments/2")).toBe("Empty; expected a name");
  });
  test("a longer name that only begins alike is another field", () =>
    expect(errorAt(refused, "/draft/block")).toBeNull());
  test("what no field shows stands at the foot", () =>
    expect(otherErrors(refused, ["/draft/blocks"])).toEqual(["draft/treatments/2/name: empty; expected a name"]));
  test("silence of the server is said once, beside no field", () => {
    expect(errorAt(new NoAnswer(), "/name")).toBeNull();
    expect(otherErrors(new NoAnswer(), ["/name"])).toEqual([new NoAnswer().message]);
  });
  test.each([
    ["/cardRulerMm", "cardRulerMm is 120; expected at most 115", "120; expected at most 115"],
    ["/body/when/date", "body.when.date is soon; expected a date", "Soon; expected a date"],
    ["/rows/2/massG", "rows[2].massG is -1; expected at least 0", "-1; expected at least 0"],
    ["/code", "this is not the code that the shop shows", "This is not the code that the shop shows"],
  ])("beside %s its name is left away", (pointer, detail, said) => {
    const errors = [{ pointer, detail }];
    expect(errorAt(new Refused({ type: "about:blank", title: "Refused", status: 422, errors }), pointer)).toBe(said);
  });
  test("the shop's words begin as a sentence, wherever they stand", () => {
    const wrong = (field: string) => ({ pointer: field, detail: "this is not the code that the shop shows" });
    const turned = (errors: { pointer: string; detail: string }[]) =>
      new Refused({ type: "about:blank", title: "this one looks only", status: 403, errors });
    expect(errorAt(turned([wrong("/code")]), "/code")).toBe("This is not the code that the shop shows");
    expect(otherErrors(turned([]), [])).toEqual(["This one looks only"]);
  });
  test("no error, nothing said", () => expect(otherErrors(null, [])).toEqual([]));
});
