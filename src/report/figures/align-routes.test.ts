import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { alignRoutes, type LaidStep } from "./align-routes.ts";

const steps = (...names: string[]): LaidStep[] => names.map((name) => ({ name, treated: "alone" }));
const betweenOf = (routes: Record<string, LaidStep[]>) => {
  const laid = alignRoutes(Object.entries(routes).map(([treatment, route]) => ({ treatment, steps: route })));
  const own = Object.fromEntries(
    laid.own.map((one) => [one.treatment, one.between.map((place) => place.map((step) => step.name))]),
  );
  return { shared: laid.shared, own, differing: laid.differing };
};

describe("routes side by side", () => {
  test("one bath more in the middle, one oil or another at the end", () =>
    expect(
      betweenOf({
        "oiled, no finish": steps("degrease", "rinse", "emulsion oil"),
        phosphated: steps("degrease", "manganese phosphate", "rinse", "emulsion oil"),
        waxed: steps("degrease", "manganese phosphate", "rinse", "paste wax"),
      }),
    ).toEqual({
      shared: ["degrease", "rinse"],
      own: {
        "oiled, no finish": [[], [], ["emulsion oil"]],
        phosphated: [[], ["manganese phosphate"], ["emulsion oil"]],
        waxed: [[], ["manganese phosphate"], ["paste wax"]],
      },
      differing: [1, 2],
    }));
  test("nothing in common", () =>
    expect(betweenOf({ a: steps("x"), b: steps("y", "z") })).toEqual({
      shared: [],
      own: { a: [["x"]], b: [["y", "z"]] },
      differing: [0],
    }));
  test("a route with nothing done to it", () =>
    expect(betweenOf({ a: steps("x"), bare: [] })).toMatchObject({ shared: [], differing: [0] }));
  test("the same step twice (two rinses) stays twice", () =>
    expect(betweenOf({ a: steps("rinse", "x", "rinse"), b: steps("rinse", "rinse") })).toMatchObject({
      shared: ["rinse", "rinse"],
      own: { a: [[], ["x"], []], b: [[], [], []] },
    }));
  test("alike: no place differs", () =>
    expect(betweenOf({ a: steps("x", "y"), b: steps("x", "y") })).toMatchObject({ shared: ["x", "y"], differing: [] }));
  test("no route at all", () => expect(alignRoutes([])).toEqual({ shared: [], own: [], differing: [] }));

  test("no step is lost and none changes its order", () => {
    const route = fc.array(fc.constantFrom("a", "b", "c", "d"), { maxLength: 6 });
    fc.assert(
      fc.property(fc.array(route, { minLength: 1, maxLength: 4 }), (routes) => {
        const laid = alignRoutes(routes.map((names, at) => ({ treatment: String(at), steps: steps(...names) })));
        laid.own.forEach((own, at) => {
          const again = own.between.flatMap((place, rung) => [
            ...place.map((step) => step.name),
            ...(rung < laid.shared.length ? [laid.shared[rung]!] : []),
          ]);
          expect(again).toEqual(routes[at]);
        });
      }),
    );
  });
});
